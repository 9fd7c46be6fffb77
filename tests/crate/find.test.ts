import { chmodSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { findTracks } from '../../src/crate/index.js';

/** Somebody who owns nothing. */
const NOBODY = 65_534;

let root: string;
beforeEach(() => (root = mkdtempSync(join(tmpdir(), 'barwise-find-'))));
afterEach(() => rmSync(root, { recursive: true, force: true }));

const touch = (...names: string[]) =>
  names.forEach((name) => {
    mkdirSync(dirname(join(root, name)), { recursive: true });
    writeFileSync(join(root, name), '');
  });
const found = async (...paths: string[]) => (await findTracks(paths)).files.map((f) => relative(root, f));

describe('findTracks', () => {
  it('finds audio to the bottom of a folder, in the order of names with numbers by value', async () => {
    touch('10 b.mp3', '9 a.WAV', 'deep/er/x.flac', 'cover.jpg', 'notes.txt', 'z.m4a');
    expect(await found(root)).toEqual(['9 a.WAV', '10 b.mp3', 'deep/er/x.flac', 'z.m4a']);
  });

  it('passes over hidden files and the cache', async () => {
    touch('a.wav', '.b.wav', '.barwise/c.wav', '._a.wav');
    expect(await found(root)).toEqual(['a.wav']);
  });

  it('takes a file that is named whatever it is called, and each file once', async () => {
    touch('a.wav', 'odd.name');
    expect(await found(join(root, 'odd.name'), root, join(root, 'a.wav'))).toEqual(['odd.name', 'a.wav']);
  });

  it('enters a folder that links back to itself once, and passes over a link to nowhere', async () => {
    touch('in/a.wav');
    symlinkSync(root, join(root, 'in/loop'));
    symlinkSync(join(root, 'gone.wav'), join(root, 'dead.wav'));
    expect(await found(root)).toEqual(['in/a.wav']);
  });

  it('follows no link out of the folder, but says so; a link that is named itself is taken', async () => {
    touch('crate/a.wav', 'elsewhere/b.wav', 'elsewhere/notes.txt');
    symlinkSync(join(root, 'elsewhere'), join(root, 'crate/out'));
    symlinkSync(join(root, 'elsewhere/b.wav'), join(root, 'crate/b.wav'));
    symlinkSync(join(root, 'elsewhere/notes.txt'), join(root, 'crate/notes.txt'));
    const { files, notices } = await findTracks([join(root, 'crate')]);
    expect(files.map((f) => relative(root, f))).toEqual(['crate/a.wav']);
    expect(notices).toHaveLength(1);
    expect(notices[0]).toMatch(/Links that lead out of .*crate were passed over: .*b\.wav and 1 more; name where/);
    expect(await found(join(root, 'crate/b.wav'))).toEqual(['crate/b.wav']);
  });

  it('does not take a folder for inside because its name begins alike', async () => {
    touch('crate/a.wav', 'crate-2/b.wav');
    symlinkSync(join(root, 'crate-2'), join(root, 'crate/next'));
    expect(await found(join(root, 'crate'))).toEqual(['crate/a.wav']);
  });

  it.skipIf(process.platform !== 'linux')('says of a name that is no text that it must be changed', async () => {
    touch('a.wav');
    writeFileSync(Buffer.concat([Buffer.from(join(root, 'caf')), Buffer.from([0xe9]), Buffer.from('.wav')]), '');
    const { files, failures } = await findTracks([root]);
    expect(files).toEqual([join(root, 'a.wav')]);
    expect(failures.map((f) => f.message)).toEqual([
      `${join(root, 'caf\ufffd.wav')} has a name that is no text in UTF-8: rename it.`,
    ]);
  });

  it.skipIf(process.platform === 'win32')('passes over a folder within that cannot be read, and goes on', async () => {
    touch('a/x.wav', 'closed/y.wav', 'z.wav');
    chmodSync(root, 0o755);
    chmodSync(join(root, 'closed'), 0);
    const superuser = process.getuid?.() === 0;
    if (superuser) process.seteuid?.(NOBODY);
    const { files, failures } = await findTracks([root]).finally(() => superuser && process.seteuid?.(0));
    expect(files).toEqual([join(root, 'a/x.wav'), join(root, 'z.wav')]);
    expect(failures.map((f) => f.message)).toEqual([
      `${join(root, 'closed')} cannot be read (EACCES): check its permissions.`,
    ]);
    chmodSync(join(root, 'closed'), 0o755);
  });

  it('says in a sentence what is missing and which folder holds no audio; the rest goes on', async () => {
    touch('a.wav', 'empty/notes.txt');
    const { files, failures } = await findTracks([join(root, 'nope.wav'), join(root, 'empty'), join(root, 'a.wav')]);
    expect(files).toHaveLength(1);
    expect(failures.map((f) => f.code)).toEqual(['file-missing', 'file-missing']);
    expect(failures[0].message).toMatch(/nope\.wav does not exist: check/);
    expect(failures[1].message).toMatch(/empty holds no audio files: give/);
  });
});
