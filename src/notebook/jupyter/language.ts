/** How front ends are to treat the code of a cell. */
export function languageInfo(): object {
  return {
    name: 'typescript',
    version: '5.0',
    mimetype: 'text/typescript',
    file_extension: '.ts',
    pygments_lexer: 'typescript',
    nbconvert_exporter: 'script',
    // The notebook's editor knows TypeScript as a manner of JavaScript.
    codemirror_mode: { name: 'javascript', mode: 'typescript', typescript: true },
  };
}
