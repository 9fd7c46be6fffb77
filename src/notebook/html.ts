import { markdownRenderer } from './markdown.js';
import { escapeHtml } from './markup.js';
import type { Cell, CodeCell, MimeBundle, Notebook, Output } from './nbformat.js';
import { pageStyle } from './style.js';

/** How a notebook becomes a page. @experimental */
export interface HtmlOptions {
  /** Title of the page where the notebook has no heading. */
  readonly title?: string;
}

/**
 * A notebook as one self-contained HTML page: prose, folded code, results. Nothing is fetched, no script runs.
 * @experimental
 * @throws BarwiseError `missing-package`
 */
export async function notebookToHtml(notebook: Notebook, options: HtmlOptions = {}): Promise<string> {
  const markdown = await markdownRenderer();
  const cells = notebook.cells.map((cell) => cellHtml(cell, markdown)).filter(Boolean);
  const title = headingOf(notebook) ?? options.title ?? 'Notebook';
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="generator" content="Barwise">',
    `<title>${escapeHtml(title)}</title>`,
    `<style>${await pageStyle()}</style>`,
    '</head>',
    '<body>',
    `<main>\n${cells.join('\n')}\n</main>`,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

function headingOf({ cells }: Notebook): string | undefined {
  for (const cell of cells) {
    const heading = cell.cell_type === 'markdown' ? /^#\s+(.+)$/m.exec(cell.source)?.[1] : undefined;
    if (heading !== undefined) return heading.trim();
  }
  return undefined;
}

function cellHtml(cell: Cell, markdown: (source: string) => string): string {
  if (cell.cell_type === 'markdown') return `<section class="prose">\n${markdown(cell.source)}</section>`;
  if (cell.cell_type === 'raw' || cell.source.trim() === '') return '';
  return codeHtml(cell as CodeCell, markdown);
}

function codeHtml({ source, outputs, execution_count: count }: CodeCell, markdown: (source: string) => string): string {
  const label = count === null ? 'Code (not run)' : `Code ${count}`;
  const code = `<details class="code"><summary>${label}</summary><pre tabindex="0"><code>${escapeHtml(source)}</code></pre></details>`;
  return `<section class="cell">\n${code}\n${outputs.map((o) => outputHtml(o, markdown)).join('\n')}\n</section>`;
}

function outputHtml(output: Output, markdown: (source: string) => string): string {
  if (output.output_type === 'stream') {
    const kind = output.name === 'stderr' ? 'stream warning' : 'stream';
    return `<pre class="${kind}" tabindex="0">${escapeHtml(withoutColours(output.text))}</pre>`;
  }
  if (output.output_type === 'error') {
    const lines = output.traceback.length > 0 ? output.traceback.join('\n') : `${output.ename}: ${output.evalue}`;
    return `<pre class="stream error" role="alert" tabindex="0">${escapeHtml(withoutColours(lines))}</pre>`;
  }
  return richHtml(output.data, markdown);
}

/** The richest form that a page without scripts can show. */
function richHtml(data: MimeBundle, markdown: (source: string) => string): string {
  const text = (type: string): string | undefined => {
    const value = data[type];
    return typeof value === 'string' ? value : undefined;
  };
  const plain = text('text/plain') ?? '';
  const scrolled = (inner: string, label: string) =>
    `<figure class="output" role="group" tabindex="0" aria-label="${escapeHtml(label)}">\n${inner}\n</figure>`;
  const html = text('text/html');
  if (html !== undefined) return scrolled(html, 'Result');
  const svg = text('image/svg+xml');
  if (svg !== undefined) return scrolled(svg, shortLabel(plain));
  for (const type of ['image/png', 'image/jpeg']) {
    const image = text(type)?.replace(/\s/g, '');
    if (image !== undefined)
      return scrolled(`<img alt="${escapeHtml(plain)}" src="data:${type};base64,${escapeHtml(image)}">`, 'Picture');
  }
  const prose = text('text/markdown');
  if (prose !== undefined) return `<div class="output">\n${markdown(prose)}</div>`;
  return `<pre class="stream" tabindex="0">${escapeHtml(withoutColours(plain))}</pre>`;
}

function shortLabel(text: string): string {
  const [line] = text.split('\n');
  return line.length > 0 && line.length <= 160 ? line : 'Picture';
}

/** Terminal colours are control characters, which a page would show. */
function withoutColours(text: string): string {
  // eslint-disable-next-line no-control-regex
  return text.replace(/\u001b\[[0-9;]*m/g, '');
}
