import { readFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import { formatNotebook, parseNotebook } from '../../src/notebook/index.js';
import { collectOutputs } from '../../src/notebook/outputs.js';
import { parameterNames, withParameters } from '../../src/notebook/parameters.js';
import { nbformatProblems } from './nbformat-rules.js';

const NOTEBOOK = 'notebooks/inspect-track.ipynb';

const stored = {
  ...{ nbformat: 4, nbformat_minor: 4, metadata: { authors: [] } },
  cells: [
    { cell_type: 'markdown', metadata: {}, source: 'One\ntwo' },
    { cell_type: 'raw', metadata: {}, source: '' },
    {
      ...{ cell_type: 'code', execution_count: 2, source: ['let bars = 8;\n', 'bars'] },
      metadata: { tags: ['parameters'], collapsed: true },
      outputs: [
        { output_type: 'stream', name: 'stdout', text: ['a\n', 'b\n'] },
        { output_type: 'execute_result', execution_count: 2, metadata: {}, data: { 'text/plain': '8' } },
        { output_type: 'display_data', metadata: {}, data: { 'image/png': 'AAAA\n', 'application/json': ['x'] } },
        { output_type: 'error', ename: 'E', evalue: 'm', traceback: ['E: m'] },
      ],
    },
  ],
};

describe('reading and writing notebooks', () => {
  it('writes what the format allows, whatever minor version it read', () => {
    const text = formatNotebook(parseNotebook(JSON.stringify(stored)));
    expect(nbformatProblems(JSON.parse(text))).toEqual([]);
    expect(text.endsWith('}\n')).toBe(true);
  });

  it('the rules would notice a broken notebook', () => {
    expect(nbformatProblems(stored).length).toBeGreaterThan(0); // no ids: not 4.5
    const whole = JSON.parse(formatNotebook(parseNotebook(JSON.stringify(stored)))) as { cells: { id: string }[] };
    whole.cells[1].id = whole.cells[0].id;
    expect(nbformatProblems(whole)).toEqual(['cell 2: the id cell-1 is used twice']);
  });

  it('loses nothing on the way: reading what it wrote gives the same notebook', () => {
    const once = parseNotebook(JSON.stringify(stored));
    expect(parseNotebook(formatNotebook(once))).toEqual(once);
    expect(once.cells[2]).toMatchObject({ source: 'let bars = 8;\nbars', metadata: { collapsed: true } });
    const [, , cell] = once.cells;
    expect(cell.cell_type === 'code' && cell.outputs[2]).toMatchObject({ data: { 'application/json': ['x'] } });
  });

  it.each([['{}'], ['not json'], ['[]'], ['{"nbformat":3,"nbformat_minor":0,"metadata":{},"worksheets":[]}']])(
    'refuses %s in one sentence',
    (text) => {
      expect(() => parseNotebook(text, 'x.ipynb')).toThrow(/^x\.ipynb is not a notebook of format 4/);
    },
  );
});

describe('parameters', () => {
  const notebook = parseNotebook(JSON.stringify(stored));

  it('are the names that the tagged cell declares', () => {
    expect(parameterNames(notebook)).toEqual(['bars']);
  });

  it('go into a new cell behind it, which a second run replaces', () => {
    const once = withParameters(notebook, { bars: 4 });
    const twice = withParameters(once, { bars: 16 });
    expect(twice.cells.map((cell) => cell.id)).toEqual(['cell-1', 'cell-2', 'cell-3', 'injected-parameters']);
    expect(twice.cells[3].source).toContain('let bars = 16;');
    expect(withParameters(twice, {}).cells).toHaveLength(3);
  });
});

describe('the outputs of a cell', () => {
  it('join the stream, and let progress bars overwrite themselves', () => {
    const collector = collectOutputs(1);
    for (const text of ['start\n', '10 %', '\r100 %', '\ndone\r\n'])
      collector.add({ kind: 'stream', name: 'stdout', text });
    expect(collector.outputs()).toEqual([{ output_type: 'stream', name: 'stdout', text: 'start\n100 %\ndone\n' }]);
  });

  it('are bounded: an endless print fills neither memory nor file', () => {
    const collector = collectOutputs(1);
    for (let i = 0; i < 3000; i++) collector.add({ kind: 'stream', name: 'stdout', text: 'x'.repeat(1000) });
    const [output] = collector.outputs();
    const { text } = output as { text: string };
    expect(text.length).toBeLessThan(1_001_000);
    expect(text).toMatch(/prints too much\.\n$/);
  });

  it('update a display in place and store bytes as base64', () => {
    const collector = collectOutputs(1);
    collector.add({ kind: 'display', data: { 'image/png': Uint8Array.of(1, 2, 3) }, metadata: {}, id: 'a' });
    collector.add({ kind: 'display', data: { 'text/plain': 'b' }, metadata: {} });
    collector.add({ kind: 'display', data: { 'text/plain': 'c' }, metadata: {}, id: 'a', update: true });
    expect(collector.outputs()).toMatchObject([{ data: { 'text/plain': 'c' } }, { data: { 'text/plain': 'b' } }]);
  });
});

describe('the notebook in the repository', () => {
  it('keeps to the format, is small, has been run, and names no folder of the machine it ran on', async () => {
    const text = await readFile(NOTEBOOK, 'utf8');
    const notebook = parseNotebook(text, NOTEBOOK);
    expect(nbformatProblems(JSON.parse(text))).toEqual([]);
    expect(text.length).toBeLessThan(500_000);
    for (const cell of notebook.cells) {
      if (cell.cell_type !== 'code') continue;
      expect(cell.execution_count, cell.id).not.toBeNull();
      expect(cell.outputs.filter((o) => o.output_type === 'error')).toEqual([]);
    }
    expect(parameterNames(notebook)).toContain('track');
    expect(notebook.cells.some((cell) => cell.metadata.tags?.includes('injected-parameters'))).toBe(false);
    expect(text).not.toMatch(/"(?:file:\/\/)?\/(?:home|root|tmp|work|Users)\b/);
  });

  it('is stored as its own writer would store it', async () => {
    const text = await readFile(NOTEBOOK, 'utf8');
    expect(formatNotebook(parseNotebook(text)) === text).toBe(true);
  });
});
