/** How the script of the page is bundled, by the build and when the program runs from its sources. */
export function bundleOptions(entry) {
  return {
    entryPoints: [entry],
    bundle: true,
    format: 'iife',
    target: ['es2020'],
    charset: 'ascii',
    minify: true,
    write: true,
    legalComments: 'none',
  };
}
