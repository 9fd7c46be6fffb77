import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoCrate, renderArrangement } from '../../src/arranger/index.js';
import { writeWav } from '../../src/audio/index.js';
import {
  readNotebook,
  runNotebook,
  VEGA_LITE_MIME,
  type CodeCell,
  type NotebookResult,
} from '../../src/notebook/index.js';
import { nbformatProblems } from './nbformat-rules.js';

/** The notebook on half a demo track, through the built package as a user's own run goes. */
describe('the notebook inspect-track', () => {
  let folder: string;
  let result: NotebookResult;
  let cells: Record<string, CodeCell>;

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'barwise-inspect-'));
    const { arrangement } = demoCrate().find(({ name }) => name.endsWith('rope-locker-lights'))!;
    const { left, right, sampleRate } = renderArrangement({ ...arrangement, parts: arrangement.parts.slice(0, 4) });
    const track = join(folder, `a <b onclick="x()"> 'track'.wav`);
    await writeWav(track, [left, right], sampleRate);
    result = await runNotebook({
      notebook: 'notebooks/inspect-track.ipynb',
      parameters: { track },
      out: join(folder, 'out.ipynb'),
      html: join(folder, 'out.html'),
    });
    const notebook = await readNotebook(result.out);
    const code = notebook.cells.filter((cell): cell is CodeCell => cell.cell_type === 'code');
    cells = Object.fromEntries(code.map((cell) => [cell.id, cell]));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  it('runs to its end on a file of the user', () => {
    expect(result.failure).toBeNull();
    expect(result.ran).toBe(result.cells);
  });

  it('shows every picture as vega-lite and as SVG, and the tables as HTML', () => {
    for (const id of ['level', 'zoom', 'onset', 'phase', 'tempo', 'novelty', 'similarity', 'layers']) {
      const [output] = cells[id].outputs;
      expect(output, id).toMatchObject({ output_type: 'display_data' });
      expect(Object.keys((output as { data: object }).data)).toEqual(
        expect.arrayContaining([VEGA_LITE_MIME, 'image/svg+xml', 'text/plain']),
      );
    }
    expect(cells['ladder'].outputs[0]).toMatchObject({
      data: { 'image/svg+xml': expect.stringMatching(/^<svg /) as string },
    });
    for (const id of ['imports', 'count', 'beats'])
      expect(cells[id].outputs[0]).toMatchObject({ data: { 'text/html': expect.any(String) as string } });
  });

  it('prints nothing that nobody asked for', () => {
    const streams = Object.values(cells).flatMap(({ id, outputs }) =>
      outputs.filter((o) => o.output_type === 'stream').map((o) => [id, o.name]),
    );
    expect(streams.filter(([id]) => id !== 'tempo' && id !== 'odd')).toEqual([]);
    expect(streams.every(([, name]) => name === 'stdout')).toBe(true);
  });

  it('keeps to the format, and its page stands alone with the name of the file as text', async () => {
    expect(nbformatProblems(JSON.parse(await readFile(result.out, 'utf8')))).toEqual([]);
    const html = await readFile(result.html!, 'utf8');
    expect(html).not.toMatch(/<script|<b onclick/);
    expect(html).toContain('a &lt;b onclick=');
    expect(html.length).toBeLessThan(3_000_000);
  });
});
