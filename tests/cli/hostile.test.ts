import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { crateTable } from '../../src/cli/crate-table.js';
import { crateRow } from '../../src/cli/rows.js';
import { run } from '../../src/cli/run.js';
import { outlineOf } from '../../src/crate/index.js';
import { TABLES, toCsv, toJams, toJsonLines, toMidi, toRows } from '../../src/exchange/index.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';
import { NAMES, STEERING, TEXTS } from '../heavy/escape/hostile.js';
import { badLines, formulas, textsOfMidi } from '../heavy/escape/readers.js';
import { barwise, clubWav } from './support.js';

/** An analysis of a file whose tags and name say whatever somebody wanted them to say. */
function saying(text: string, file = `${text}.wav`): TrackAnalysis {
  const analysis = sampleAnalysis();
  const tags = { ...analysis.source.tags, title: text, artist: text, album: text, genre: text, comment: text };
  return { ...analysis, source: { ...analysis.source, file, tags } };
}

const HOSTILE = [
  ...Object.entries(TEXTS).map(([about, text]) => [about, saying(text)] as const),
  ...NAMES.map((name) => [JSON.stringify(name.slice(0, 30)), saying('', `/crate/${name}.wav`)] as const),
];

describe.each(HOSTILE)('a track that says %s', (_, analysis) => {
  it.each([true, false])('does not steer what lists it (terminal: %s)', (isTTY) => {
    const io = {
      stdout: { write: () => true, isTTY, columns: 120 },
      stderr: { write: () => true },
      env: { NO_COLOR: '1' },
      signal: new AbortController().signal,
    };
    const text = crateTable([crateRow(outlineOf(analysis))], io);
    expect(badLines(text)).toEqual([]);
    expect(text.trimEnd().split('\n')).toHaveLength(2);
  });

  it('runs in no spreadsheet and breaks no line of data', () => {
    for (const table of TABLES) {
      const rows = toRows(analysis, table);
      expect(formulas(toCsv(rows)), table).toEqual([]);
      for (const line of toJsonLines(rows).trimEnd().split('\n'))
        if (line !== '') expect(() => JSON.parse(line) as unknown, table).not.toThrow();
    }
    expect(JSON.parse(JSON.stringify(toJams(analysis)))).toMatchObject({ file_metadata: {} });
  });

  it('writes no text into a MIDI file that steers what shows it', () => {
    for (const text of textsOfMidi(toMidi(analysis))) expect(text).not.toMatch(STEERING);
  });
});

describe('files that are named after music with a hostile name', () => {
  let root: string;
  const names = ['\u001b[2J\u001b]0;broken\u0007bell', 'two\nlines\rand a return', 'W'.repeat(251)];
  beforeAll(() => {
    root = mkdtempSync(join(tmpdir(), 'barwise-hostile-'));
    names.forEach((name, i) => writeFileSync(join(root, `${name}.wav`), clubWav(100 + 10 * i, 12)));
  });
  afterAll(() => rmSync(root, { recursive: true, force: true }));

  it('have a name of one line that steers nothing and that the system takes', async () => {
    const { code, out, err } = await barwise(['export', root, '--format', 'jams', '--out', join(root, 'out')]);
    expect([code, err]).toEqual([0, '']);
    const written = out.trimEnd().split('\n');
    expect(written.map((file) => basename(file)).sort()).toEqual([
      `${'W'.repeat(240)}.jams`,
      '[2J ]0;broken bell.jams',
      'two lines and a return.jams',
    ]);
  });

  it('are named on a terminal without what steers it, also where somebody asked for such a name', async () => {
    let out = '';
    const code = await run(['show', root, '--out', join(root, 'a\u001b[2Jb.html')], {
      stdout: { write: (text) => (out += text), isTTY: true, columns: 80 },
      stderr: { write: () => true },
      env: {},
      signal: new AbortController().signal,
    });
    expect(code).toBe(0);
    expect(out).toBe(`${join(root, 'a [2Jb.html')}\n`);
  });
});
