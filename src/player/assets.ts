import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import type * as Esbuild from 'esbuild';
import { bundleOptions } from './bundle-options.mjs';

const require = createRequire(import.meta.url);
const beside = (name: string) => fileURLToPath(new URL(name, import.meta.url));

/** The pages: their scripts, built and from source, and their style sheets in the order in which they overrule each other. */
const PAGES = {
  track: {
    built: './browser.js',
    source: './browser/main.ts',
    styles: ['ground', 'crate', 'player', 'practice', 'doubt', 'ladder', 'words', 'screens'],
  },
  drill: { built: './drill-browser.js', source: './browser/drill/main.ts', styles: ['ground', 'drill', 'words'] },
} as const;
/** One of the pages. */
export type PageKind = keyof typeof PAGES;

/** What the page carries inside itself. */
export interface PageAssets {
  readonly script: string;
  readonly style: string;
}

const kept = new Map<PageKind, PageAssets>();

/** Script, style sheet and type of a page; read once. Run from its sources, the program bundles the script itself. */
export function pageAssets(kind: PageKind): PageAssets {
  const known = kept.get(kind);
  if (known) return known;
  const assets = { script: pageScript(kind), style: fontFaces() + styleSheets(kind) };
  kept.set(kind, assets);
  return assets;
}

function styleSheets(kind: PageKind): string {
  return PAGES[kind].styles.map((name) => readFileSync(beside(`./style/${name}.css`), 'utf8')).join('');
}

function pageScript(kind: PageKind): string {
  const { built, source } = PAGES[kind];
  if (existsSync(beside(built))) return readFileSync(beside(built), 'utf8');
  const { buildSync } = require('esbuild') as typeof Esbuild;
  const result = buildSync({ ...bundleOptions(beside(source)), write: false });
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
