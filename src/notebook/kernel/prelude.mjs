/**
 * The cell that runs before all others, so that the library is at hand without an import: its functions under their
 * own names, charts and printed pieces as `charts` and `reports`. A name that a cell declares itself goes before it.
 */
export function prelude({ main, charts, reports, notebook }) {
  const taken = new Set();
  const lines = [
    importLine('barwise', main, ['TrackAnalysis', 'FrontEnd'], taken),
    importLine('barwise/notebook', notebook, ['Display'], taken),
  ];
  if (has(charts)) lines.push(`import * as charts from 'barwise/charts';`);
  if (has(reports)) lines.push(`import * as reports from 'barwise/reports';`);
  return lines.filter(Boolean).join('\n');
}

function importLine(name, module, types, taken) {
  if (!has(module)) return '';
  const names = Object.keys(module).filter((key) => key !== 'default' && !taken.has(key));
  names.forEach((key) => taken.add(key));
  return `import { ${[...names, ...types.map((type) => `type ${type}`)].join(', ')} } from '${name}';`;
}

function has(module) {
  return Object.keys(module).length > 0;
}
