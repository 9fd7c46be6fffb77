import { createHmac } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findJupyter, installKernel, jupyterFolder, progress, removeKernel } from '../../src/notebook/index.js';
import { createHistory } from '../../src/notebook/jupyter/history.js';
import { toCharacters, toUnits } from '../../src/notebook/jupyter/positions.js';
import { readMessage, writeMessage } from '../../src/notebook/jupyter/wire.js';

/** Source: Jupyter Client documentation, "Messaging in Jupyter", 5.3: frames, signature, parent header. */
describe('messages', () => {
  const frames = (key: string) =>
    writeMessage('status', { execution_state: 'idle' }, { key, session: 's', identities: [Buffer.from('who')] }).map(
      (f) => Buffer.from(f),
    );

  it('carry addresses, delimiter, HMAC-SHA256 in hex, and four parts of JSON', () => {
    const [who, delimiter, signature, ...parts] = frames('secret');
    expect([who.toString(), delimiter.toString(), parts.length]).toEqual(['who', '<IDS|MSG>', 4]);
    const hmac = createHmac('sha256', 'secret');
    parts.forEach((part) => hmac.update(part));
    expect(signature.toString()).toBe(hmac.digest('hex'));
    expect(JSON.parse(parts[0].toString())).toMatchObject({ msg_type: 'status', version: '5.3', session: 's' });
    expect(parts.slice(1).map(String)).toEqual(['{}', '{}', '{"execution_state":"idle"}']);
  });

  it('are read back, and refused when the signature is another’s or anything is missing', () => {
    expect(readMessage(frames('secret'), 'secret')?.content).toEqual({ execution_state: 'idle' });
    expect(readMessage(frames('other'), 'secret')).toBeNull();
    expect(readMessage(frames('secret').slice(0, 5), 'secret')).toBeNull();
    expect(readMessage([], 'secret')).toBeNull();
    expect(readMessage(frames(''), '')?.header.msg_type).toBe('status');
  });

  it('count characters where the program counts units', () => {
    expect(toUnits('𝄞a', 1)).toBe(2);
    expect(toCharacters('𝄞a', 3)).toBe(2);
    expect(toUnits('abc', 99)).toBe(3);
  });
});

describe('history', () => {
  const history = createHistory();
  ['1 + 2', 'x', '1 + 2', '12'].forEach((code, i) => history.add(i + 1, code));
  history.setOutput(4, '12');
  it('gives the last cells, a range, and what fits a pattern', () => {
    expect(history.find({ hist_access_type: 'tail', n: 2 })).toEqual([
      [1, 3, '1 + 2'],
      [1, 4, '12'],
    ]);
    expect(history.find({ hist_access_type: 'range', start: 2, stop: 3 })).toEqual([[1, 2, 'x']]);
    expect(history.find({ hist_access_type: 'search', pattern: '1*2', unique: true })).toEqual([
      [1, 3, '1 + 2'],
      [1, 4, '12'],
    ]);
    expect(history.find({ hist_access_type: 'tail', n: 1, output: true })).toEqual([[1, 4, ['12', '12']]]);
  });
});

describe('the kernel among the kernels of Jupyter', () => {
  let folder: string;
  beforeAll(async () => (folder = await mkdtemp(join(tmpdir(), 'barwise-kernels-'))));
  afterAll(() => rm(folder, { recursive: true, force: true }));

  it('is one file, and leaves nothing behind', async () => {
    const place = await installKernel(folder, ['node', 'barwise']);
    expect(await readdir(folder, { recursive: true })).toEqual([
      'kernels',
      'kernels/barwise',
      'kernels/barwise/kernel.json',
    ]);
    const spec = JSON.parse(await readFile(join(place, 'kernel.json'), 'utf8')) as { argv: string[] };
    expect(spec).toMatchObject({ display_name: 'Barwise (TypeScript)', interrupt_mode: 'message' });
    expect(spec.argv).toEqual(['node', 'barwise', 'kernel', 'serve', '{connection_file}']);
    await installKernel(folder, ['node', 'barwise']);
    expect(await removeKernel(folder)).toBe(place);
    expect(existsSync(place)).toBe(false);
    expect(await removeKernel(folder)).toBeNull();
  });

  it('neither overwrites nor removes a kernel that somebody else has made', async () => {
    const place = join(folder, 'kernels', 'barwise');
    await mkdir(place, { recursive: true });
    await writeFile(join(place, 'kernel.json'), '{"argv":["other"]}');
    await expect(installKernel(folder, ['node'])).rejects.toMatchObject({ code: 'bad-option' });
    await expect(removeKernel(folder)).rejects.toMatchObject({ code: 'bad-option' });
    expect(await readFile(join(place, 'kernel.json'), 'utf8')).toBe('{"argv":["other"]}');
  });

  it('is put where the user or the project has it', () => {
    expect(jupyterFolder('project', '/music')).toBe('/music/.jupyter');
    expect(jupyterFolder('user')).not.toContain('/.jupyter');
  });

  it('says what to install where there is no Jupyter', async () => {
    expect(() => findJupyter(folder)).toThrow(/apt install jupyter-notebook/);
    const program = join(folder, 'jupyter-notebook');
    await writeFile(program, '', { mode: 0o755 });
    expect(findJupyter(`/nowhere:${folder}`)).toBe(program);
  });
});

describe('progress in a cell', () => {
  it('overwrites itself and goes away', () => {
    const written: string[] = [];
    const { onProgress } = progress((text) => written.push(text));
    onProgress({ stage: 'hear the track', done: 0.25 });
    onProgress({ stage: 'hear the track', done: 0.26 });
    onProgress({ stage: 'done', done: 1 });
    expect(written).toHaveLength(2);
    expect(written[0]).toMatch(/^\r█{6}░{18} {2}25 % {2}hear the track$/);
    expect(written[1]).toBe(`\r${' '.repeat(written[0].length - 1)}\r`);
  });
});
