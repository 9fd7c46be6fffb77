import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { reportCrate } from '../../src/cli/report-failures.js';
import { run } from '../../src/cli/run.js';
import { clubWav } from './support.js';

let root: string;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'barwise-report-'));
  mkdirSync(join(root, 'b'));
  writeFileSync(join(root, 'a.wav'), clubWav(120, 16));
  writeFileSync(join(root, 'b/short.wav'), clubWav(120, 1));
  writeFileSync(join(root, 'b/words.mp3'), 'not music at all');
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** Whatever reaches the terminal, in the order in which it does. */
async function onTerminal(argv: string[], columns: number): Promise<{ code: number; text: string }> {
  let text = '';
  const output = { write: (part: string) => (text += part), isTTY: true, columns };
  const code = await run(argv, {
    stdout: output,
    stderr: { ...output, isTTY: false },
    env: { NO_COLOR: '1' },
    signal: new AbortController().signal,
  });
  return { code, text };
}

it.each(['crate', 'analyse'])(
  '%s says what failed after its table, by the whole path, with a count at the end',
  async (name) => {
    const { code, text } = await onTerminal([name, root, '--no-cache'], 100);
    expect(code).toBe(4);
    const [head, track, ...failures] = text.trimEnd().split('\n');
    expect(head).toMatch(/^Track +BPM/);
    expect(track).toMatch(/^a\.wav/);
    expect(failures.map((line) => line.replace(root, '…'))).toEqual([
      expect.stringMatching(/^…\/b\/short\.wav: The music is shorter than/),
      expect.stringMatching(/^…\/b\/words\.mp3 is a text file/),
      '2 of 3 could not be analysed: why, and what to do, is said above of each.',
    ]);
  },
);

it('breaks no word at the end of a line of a terminal', () => {
  let err = '';
  reportCrate(
    {
      stdout: { write: () => true },
      stderr: { write: (text) => (err += text), isTTY: true, columns: 40 },
      env: {},
      signal: new AbortController().signal,
    },
    {
      tracks: [],
      failures: [],
      duplicates: [],
      notices: ['Twenty words and more would hardly fit into one single line of it.'],
    },
  );
  expect(err).toBe('Twenty words and more would hardly fit\ninto one single line of it.\n');
});
