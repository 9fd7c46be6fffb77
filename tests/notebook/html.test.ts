import { describe, expect, it } from 'vitest';
import { notebookToHtml, parseNotebook, type Cell, type Notebook, type Output } from '../../src/notebook/index.js';

const HOSTILE = '<img src=x onerror="alert(1)"><script>alert(2)</script>&\'"';

function notebookOf(...cells: readonly Cell[]): Notebook {
  return { nbformat: 4, nbformat_minor: 5, metadata: {}, cells };
}

function prose(source: string): Cell {
  return { cell_type: 'markdown', id: 'p', metadata: {}, source };
}

function code(source: string, ...outputs: readonly Output[]): Cell {
  return { cell_type: 'code', id: 'c', metadata: {}, source, execution_count: 1, outputs };
}

function shown(data: Record<string, unknown>): Output {
  return { output_type: 'display_data', data, metadata: {} };
}

describe('a notebook as HTML', () => {
  it('is self-contained: no script, nothing to fetch', async () => {
    const html = await notebookToHtml(
      notebookOf(prose('# Title\n\nText with [a link](https://example.org).'), code('1', shown({ 'text/plain': '1' }))),
    );
    expect(html).not.toMatch(/<script|<link|<iframe|@import/);
    const sources = [...html.matchAll(/(?:src|href)="?([^"\s>]+)|url\(([^)]+)\)/g)].map(
      ([, attribute, url]) => attribute ?? url,
    );
    expect(sources.filter((url) => !url.startsWith('data:'))).toEqual(['https://example.org']);
    expect(html).toContain('<title>Title</title>');
    expect(html).toContain('name="viewport"');
    expect(html).toContain('@media print');
  });

  it('shows hostile text as text, wherever it comes from', async () => {
    const html = await notebookToHtml(
      notebookOf(
        prose(`# ${HOSTILE}`),
        prose(`[click](javascript:alert(3)) ${HOSTILE}`),
        code(
          HOSTILE,
          { output_type: 'stream', name: 'stdout', text: HOSTILE },
          { output_type: 'error', ename: 'Error', evalue: HOSTILE, traceback: [HOSTILE] },
          shown({ 'text/plain': HOSTILE }),
          shown({ 'image/png': `"><script>${HOSTILE}`, 'text/plain': HOSTILE }),
          shown({ 'image/svg+xml': '<svg></svg>', 'text/plain': HOSTILE }),
          shown({ 'text/markdown': HOSTILE, 'text/plain': '' }),
        ),
      ),
      { title: HOSTILE },
    );
    expect(html).not.toContain('<script');
    expect(html).not.toContain('<img src=x');
    const unquoted = html.replace(/"[^"]*"/g, '""');
    expect(unquoted).not.toMatch(/<[^>]*onerror/);
    expect(html).not.toMatch(/href="javascript:/);
  });

  it('takes the richest form that needs no script', async () => {
    const vega = { $schema: 'https://vega.github.io/schema/vega-lite/v5.json' };
    const html = await notebookToHtml(
      notebookOf(
        code(
          '1',
          shown({
            'application/vnd.vegalite.v5+json': vega,
            'image/svg+xml': '<svg id="a"></svg>',
            'text/plain': 'Picture of it',
          }),
        ),
        code('2', shown({ 'text/html': '<table><tr><td>8 bars</td></tr></table>', 'text/plain': '8' })),
        code('3', shown({ 'text/plain': 'only text' })),
      ),
    );
    expect(html).toContain('<svg id="a"></svg>');
    expect(html).toContain('aria-label="Picture of it"');
    expect(html).not.toContain('vega-lite');
    expect(html).toContain('<td>8 bars</td>');
    expect(html).toContain('only text');
  });

  it('leaves terminal colours out and says what did not run', async () => {
    const plain = await notebookToHtml(
      notebookOf(code('1', { output_type: 'stream', name: 'stdout', text: '\u001b[33m32\u001b[39m' }), {
        ...code('later'),
        execution_count: null,
      } as Cell),
    );
    expect(plain).toContain('>32</pre>');
    expect(plain).toContain('Code (not run)');
  });

  it('renders what other tools have saved', async () => {
    // Layout of an older minor version, without cell ids and with texts as lists of lines (nbformat 4.4).
    const saved = {
      ...{ nbformat: 4, nbformat_minor: 2, metadata: { kernelspec: { name: 'x' } } },
      cells: [{ cell_type: 'markdown', metadata: {}, source: ['# Two\n', 'lines'] }],
    };
    expect(await notebookToHtml(parseNotebook(JSON.stringify(saved)))).toContain('<h1>Two</h1>');
  });
});
