/** What the compiler knows of a name, as text for a person: how it is called, what it does, what it takes and gives. */
export function documentation({ displayParts, documentation: prose, tags }) {
  const text = (parts) => (parts ?? []).map((part) => part.text).join('');
  const head = text(displayParts)
    .replace(/^\(alias\) /, '')
    .replace(/\nimport [\w$]+$/, '');
  const params = (tags ?? [])
    .filter(({ name }) => name === 'param')
    .map(({ text: parts }) => `  ${named(text(parts))}`);
  const others = (tags ?? []).filter(({ name }) => name !== 'param');
  const sections = others.map(({ name, text: parts }) => `${TITLES[name] ?? name}: ${text(parts)}`);
  return [head, text(prose), params.join('\n'), ...sections].filter(Boolean).join('\n\n');
}

const TITLES = { throws: 'Throws', returns: 'Gives', example: 'Example', see: 'See', deprecated: 'No longer used' };

/** "file path of an audio file" is a name and what it means. */
function named(text) {
  return text.replace(/^(\S+)\s+/, '$1: ');
}
