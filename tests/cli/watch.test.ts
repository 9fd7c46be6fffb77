import { copyFileSync, mkdirSync, mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../src/cli/run.js';
import { crateTable } from '../../src/cli/crate-table.js';
import { crateRow } from '../../src/cli/rows.js';
import { whereabouts } from '../../src/cli/whereabouts.js';
import { outlineOf } from '../../src/crate/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';
import { clubWav } from './support.js';

let root: string;
let crate: string;
const at = (name: string) => join(crate, name);
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'barwise-watch-'));
  // A crate in a hidden folder is a crate.
  crate = join(root, '.music', 'crate');
  mkdirSync(at('sub'), { recursive: true });
  writeFileSync(at('slow.wav'), clubWav(100, 16));
  writeFileSync(at('fast.wav'), clubWav(130, 16));
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

describe('barwise crate --watch', () => {
  it('prints a line for a track that comes or changes, says what moved, went or failed, and ends when told to', async () => {
    const controller = new AbortController();
    let [out, err] = ['', ''];
    const until = async (what: () => string, part: string) => {
      for (let i = 0; i < 1200 && !what().includes(part); i++) await new Promise((r) => setTimeout(r, 50));
      expect(what()).toContain(part);
    };
    const rows = () => out.trimEnd().split('\n').slice(1);
    const ended = run(['crate', crate, '--watch', '--bpm', '90-110', '--jobs', '1'], {
      stdout: { write: (text) => (out += text) },
      stderr: {
        write(text) {
          err += text;
          // It comes after the crate was listed and before it is watched.
          if (text.startsWith('Watching')) copyFileSync(at('slow.wav'), at('early.wav'));
        },
      },
      env: {},
      signal: controller.signal,
    });
    await until(() => out, 'early.wav');
    expect(rows()).toHaveLength(2);
    writeFileSync(at('fast.wav'), clubWav(105, 16));
    await until(() => out, 'fast.wav');
    writeFileSync(at('bad.mp3'), 'not music at all');
    await until(() => err, `${at('bad.mp3')} is a text file`);
    renameSync(at('fast.wav'), at('sub/moved.wav'));
    await until(() => err, `${at('fast.wav')} is now ${at('sub/moved.wav')}.`);
    rmSync(at('early.wav'));
    await until(() => err, `${at('early.wav')} is gone.`);
    controller.abort();
    expect(await ended).toBe(0);
    expect(rows()).toHaveLength(3);
  }, 120_000);
});

describe('whereabouts', () => {
  const track = (file: string, letter: string) => {
    const outline = outlineOf(sampleAnalysis());
    return { ...outline, source: { ...outline.source, file, audioDigest: letter.repeat(64) } };
  };
  const PATIENCE = 20;
  const start = () => {
    const said: string[] = [];
    return { said, places: whereabouts([track('a.wav', 'a')], (sentence) => said.push(sentence), PATIENCE) };
  };
  const waited = () => new Promise((resolve) => setTimeout(resolve, PATIENCE * 3));

  it('takes what is only touched for nothing, and what sounds otherwise for news', () => {
    const { said, places } = start();
    expect(places.comes(track('a.wav', 'a'))).toBe(false);
    expect(places.comes(track('a.wav', 'b'))).toBe(true);
    expect(said).toEqual([]);
  });

  it('says that a track has moved, or after a while that it is gone', async () => {
    const { said, places } = start();
    places.goes('a.wav');
    expect(places.comes(track('b.wav', 'a'))).toBe(false);
    places.goes('b.wav');
    places.goes('never-listed.wav');
    await waited();
    expect(said).toEqual(['a.wav is now b.wav.', 'b.wav is gone.']);
  });

  it('says nothing of a file that is deleted and written again', async () => {
    const { said, places } = start();
    places.goes('a.wav');
    expect(places.comes(track('a.wav', 'a'))).toBe(false);
    await waited();
    expect(said).toEqual([]);
  });

  it('says at the end what it still waits with', () => {
    const { said, places } = start();
    places.goes('a.wav');
    places.end();
    expect(said).toEqual(['a.wav is gone.']);
  });
});

it('a line for a newcomer stands in the columns of the table above it', () => {
  const row = crateRow(outlineOf(sampleAnalysis()));
  const io = {
    stdout: { write: () => true, isTTY: true, columns: 120 },
    stderr: { write: () => true },
    env: { NO_COLOR: '1' },
    signal: new AbortController().signal,
  };
  const long = { ...row, title: `${row.title} and a good deal more` };
  const [, above] = crateTable([long], io).split('\n');
  const [below, ...rest] = crateTable([row], io, [long]).split('\n');
  expect(rest).toEqual(['']);
  expect(below.indexOf(row.bpm)).toBe(above.indexOf(row.bpm));
});
