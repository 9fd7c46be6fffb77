import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { COLOURS, FONT } from '../charts/index.js';

const WEIGHTS = [400, 700];

/** The style of a page, with the typeface inside. */
export async function pageStyle(): Promise<string> {
  return (await Promise.all(WEIGHTS.map(fontFace))).join('\n') + RULES;
}

async function fontFace(weight: number): Promise<string> {
  const name = `@fontsource/atkinson-hyperlegible/files/atkinson-hyperlegible-latin-${weight}-normal.woff2`;
  const data = await readFile(createRequire(import.meta.url).resolve(name), 'base64');
  return `@font-face{font-family:'Atkinson Hyperlegible';font-weight:${weight};font-style:normal;src:url(data:font/woff2;base64,${data}) format('woff2')}`;
}

const RULES = `
:root { color-scheme: light; }
body { margin: 0; background: ${COLOURS.paper}; color: ${COLOURS.ink}; font: 17px/1.55 ${FONT}; }
main { max-width: 800px; margin: 0 auto; padding: 24px 20px 64px; }
h1 { font-size: 1.8em; line-height: 1.2; margin: 0.4em 0; }
h2 { font-size: 1.3em; line-height: 1.25; margin: 2em 0 0.4em; }
h3 { font-size: 1.1em; margin: 1em 0 0.4em; }
p, ul, ol { margin: 0.6em 0; max-width: 68ch; }
a { color: #0b5a93; }
code { font-size: 0.92em; background: ${COLOURS.faint}; padding: 1px 4px; border-radius: 3px; }
pre { overflow-x: auto; font-size: 14px; line-height: 1.45; margin: 0.4em 0; padding: 10px 12px; --ground: #f5f7f8; background: var(--ground); border-radius: 4px; }
pre code { padding: 0; background: none; font-size: inherit; }
pre, code { font-family: ui-monospace, Menlo, Consolas, 'DejaVu Sans Mono', monospace; }
details.code > summary { cursor: pointer; font-size: 14px; color: ${COLOURS.quiet}; padding: 4px 0; }
.warning { border-left: 3px solid ${COLOURS.quiet}; }
.error { border-left: 3px solid ${COLOURS.accent}; white-space: pre-wrap; }
.output { --ground: ${COLOURS.paper}; margin: 0.6em 0 1.2em; overflow-x: auto; }
.output > svg { display: block; max-width: 100%; height: auto; }
.output > img { max-width: 100%; }
.output table { font-size: 15px; line-height: 1.4; }
.output tbody tr:nth-child(even) { background: #f5f7f8; }
.output thead th { border-bottom: 1px solid ${COLOURS.quiet}; }
dd { margin: 0; }
:focus-visible { outline: 2px solid ${COLOURS.middle}; outline-offset: 2px; }
@media (max-width: 700px) {
  body { font-size: 16px; }
  main { padding: 12px 14px 48px; }
  .output > svg { max-width: none; mix-blend-mode: multiply; }
  .output, pre {
    --edge: rgb(23 33 43 / 0.28);
    background:
      linear-gradient(to right, var(--ground) 50%, transparent) 0 0 / 28px 100% no-repeat local,
      linear-gradient(to left, var(--ground) 50%, transparent) 100% 0 / 28px 100% no-repeat local,
      linear-gradient(to right, var(--edge), transparent) 0 0 / 14px 100% no-repeat scroll,
      linear-gradient(to left, var(--edge), transparent) 100% 0 / 14px 100% no-repeat scroll,
      var(--ground);
  }
}
@media print {
  body { font-size: 10.5pt; }
  main { max-width: none; padding: 0; }
  details.code { display: none; }
  .output, pre { overflow: visible; break-inside: avoid; background: none; }
  pre { white-space: pre-wrap; }
  .output iframe { display: none; }
  .output:has(iframe)::after { content: 'The player plays where this page is open on a screen.'; color: ${COLOURS.quiet}; }
  .output > svg { max-width: 100%; }
  h2, h3 { break-after: avoid; }
}
`;
