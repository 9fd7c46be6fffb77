import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import type * as Esbuild from 'esbuild';
import { bundleOptions } from './bundle-options.mjs';

const require = createRequire(import.meta.url);
const beside = (name: string) => fileURLToPath(new URL(name, import.meta.url));

/** In the order in which they overrule each other. */
const STYLE_SHEETS = ['ground', 'crate', 'player', 'practice', 'doubt', 'ladder', 'words', 'screens'];

/** What the page carries inside itself. */
export interface PageAssets {
  readonly script: string;
  readonly style: string;
}

let kept: PageAssets | undefined;

/** Script, style sheet and type of the page; read once. Run from its sources, the program bundles the script itself. */
export function pageAssets(): PageAssets {
  kept ??= { script: pageScript(), style: fontFaces() + styleSheets() };
  return kept;
}

function styleSheets(): string {
  return STYLE_SHEETS.map((name) => readFileSync(beside(`./style/${name}.css`), 'utf8')).join('');
}

function pageScript(): string {
  const built = beside('./browser.js');
  if (existsSync(built)) return readFileSync(built, 'utf8');
  const { buildSync } = require('esbuild') as typeof Esbuild;
  const result = buildSync({ ...bundleOptions(beside('./browser/main.ts')), write: false });
  return result.outputFiles[0].text;
}

/** The two weights of Atkinson Hyperlegible (SIL Open Font License 1.1) as data, so that the page asks for no file. */
function fontFaces(): string {
  const ranges = {
    latin: 'U+0000-00FF,U+0131,U+0152-0153,U+02C6,U+02DA,U+02DC,U+2000-206F,U+2212',
    'latin-ext': 'U+0100-02BA,U+1E00-1E9F',
  };
  return Object.entries(ranges)
    .flatMap(([subset, range]) =>
      [400, 700].map((weight) => {
        const name = `@fontsource/atkinson-hyperlegible/files/atkinson-hyperlegible-${subset}-${weight}-normal.woff2`;
        const data = readFileSync(require.resolve(name)).toString('base64');
        return (
          `@font-face{font-family:"Atkinson Hyperlegible";font-weight:${weight};font-display:block;` +
          `src:url(data:font/woff2;base64,${data}) format("woff2");unicode-range:${range}}\n`
        );
      }),
    )
    .join('');
}
