import { readFileSync, statSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseNotebook, type CodeCell } from '../../src/notebook/index.js';
import { nbformatProblems } from './nbformat-rules.js';

const FILE = 'notebooks/why-it-phrases-oddly.ipynb';

describe('the notebook why-it-phrases-oddly, as it is saved', () => {
  const text = readFileSync(FILE, 'utf8');
  const notebook = parseNotebook(text, FILE);
  const code = notebook.cells.filter((cell): cell is CodeCell => cell.cell_type === 'code');

  it('is a notebook by the published format, and small', () => {
    expect(nbformatProblems(JSON.parse(text))).toEqual([]);
    expect(statSync(FILE).size).toBeLessThan(500_000);
  });

  it('is executed to its end, without an error and without a name of the machine it ran on', () => {
    for (const cell of code) {
      if (cell.metadata.tags?.includes('parameters')) continue;
      expect(cell.outputs.length, cell.id).toBeGreaterThan(0);
      expect(
        cell.outputs.every((o) => o.output_type === 'display_data'),
        cell.id,
      ).toBe(true);
    }
    expect(text).not.toMatch(/"(\/home|\/root|\/tmp|[A-Z]:\\\\)/);
  });

  it('shows the evidence for each reading side by side, and what a correction would change', () => {
    const shown = (id: string) => JSON.stringify(code.find((cell) => cell.id === id)?.outputs);
    for (const reading of ['as counted', '1 beat later', '3 beats later']) expect(shown('beat')).toContain(reading);
    for (const reading of ['1 bar later', '2 bars later']) expect(shown('bar')).toContain(reading);
    expect(shown('where')).toContain('two bars longer');
    expect(shown('correct')).toContain('nothing was written');
  });
});
