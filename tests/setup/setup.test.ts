import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { sameVersions, whyInstall } from '../../src/setup/install.mjs';
import { nodeComplaint } from '../../src/setup/node-version.mjs';
import { runQuietly } from '../../src/setup/run-quietly.mjs';
import { contentOf, filesUnder, stateOf } from '../../src/setup/sources.mjs';

let root: string;
beforeEach(() => (root = mkdtempSync(join(tmpdir(), 'barwise-setup-'))));
afterEach(() => rmSync(root, { recursive: true, force: true }));

describe('nodeComplaint', () => {
  it('takes 20.19 and everything newer', () => {
    expect(['20.19.0', '20.20.2', '22.0.0', '24.1.0'].map(nodeComplaint)).toEqual([null, null, null, null]);
  });

  it('says in one sentence what is needed and what is there', () => {
    for (const version of ['20.18.3', '18.20.4', '8.9.0']) {
      expect(nodeComplaint(version)).toMatch(new RegExp(`needs Node 20\\.19 .* is Node ${version}: install`));
    }
  });
});

describe('whyInstall', () => {
  const lock = {
    packages: {
      '': {},
      'node_modules/a': { version: '1.0.0' },
      'node_modules/b': { version: '2.0.0', optional: true },
    },
  };
  const write = (file: string, data: unknown, seconds: number) => {
    mkdirSync(join(root, 'node_modules'), { recursive: true });
    writeFileSync(join(root, file), JSON.stringify(data));
    utimesSync(join(root, file), seconds, seconds);
  };

  it('asks for an installation when there is none', () => {
    write('package-lock.json', lock, 1000);
    expect(whyInstall(root)).toMatch(/none/);
  });

  it('is content with an installation that is newer than the lock file', () => {
    write('package-lock.json', lock, 1000);
    write('node_modules/.package-lock.json', {}, 2000);
    expect(whyInstall(root)).toBeNull();
  });

  it('looks at the versions when the lock file is newer: a fresh checkout of the same versions needs nothing', () => {
    write('node_modules/.package-lock.json', { packages: { 'node_modules/a': { version: '1.0.0' } } }, 1000);
    write('package-lock.json', lock, 2000);
    expect(whyInstall(root)).toBeNull();
    write('node_modules/.package-lock.json', { packages: { 'node_modules/a': { version: '0.9.0' } } }, 1000);
    expect(whyInstall(root)).toMatch(/changed/);
  });

  it('tells a missing package from one for another platform', () => {
    expect(sameVersions(lock, { packages: {} })).toBe(false);
    expect(sameVersions(lock, { packages: { 'node_modules/a': { version: '1.0.0' } } })).toBe(true);
    expect(
      sameVersions(lock, { packages: { 'node_modules/a': { version: '1.0.0' }, 'node_modules/c': { version: '1' } } }),
    ).toBe(false);
  });
});

describe('contentOf', () => {
  it('tells what files say, whenever and wherever they were written', () => {
    const written = (text: string, seconds: number) => {
      writeFileSync(join(root, 'a.js'), text);
      utimesSync(join(root, 'a.js'), seconds, seconds);
      return contentOf(root, ['a.js']);
    };
    const first = written('1', 1000);
    expect(first).toMatch(/^[0-9a-f]{12}$/);
    expect(written('1', 2000)).toBe(first);
    expect(written('2', 1000)).not.toBe(first);
  });
});

describe('stateOf', () => {
  it('changes when a source changes, comes or goes, and only then', () => {
    mkdirSync(join(root, 'src/deep'), { recursive: true });
    writeFileSync(join(root, 'src/deep/a.ts'), 'a');
    const now = () => stateOf(root, filesUnder(root, 'src'));
    const first = now();
    expect(now()).toBe(first);
    writeFileSync(join(root, 'src/b.ts'), '');
    expect(now()).not.toBe(first);
    rmSync(join(root, 'src/b.ts'));
    expect(now()).toBe(first);
    writeFileSync(join(root, 'src/deep/a.ts'), 'ab');
    expect(now()).not.toBe(first);
  });

  it('finds nothing in a folder that is not there', () => {
    expect(filesUnder(root, 'nothing')).toEqual([]);
  });
});

describe('runQuietly', () => {
  const run = (code: string) =>
    runQuietly(process.execPath, ['-e', code], { cwd: root, what: 'The trial', say: () => undefined });

  it('keeps quiet about what goes well', async () => {
    await expect(run('console.log("noise")')).resolves.toBeUndefined();
  });

  it('tells the last lines of what fails', async () => {
    await expect(run('console.log("first"); console.error("the reason"); process.exit(3)')).rejects.toThrow(
      /The trial failed[^]*the reason/,
    );
  });

  it('says which program is missing', async () => {
    const missing = runQuietly('barwise-no-such-program', [], { cwd: root, what: 'The trial', say: () => undefined });
    await expect(missing).rejects.toThrow(/barwise-no-such-program was not found/);
  });
});

describe('an installation by hand', () => {
  it('builds the program, so that `npm install` is enough to use it', () => {
    const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> };
    expect(scripts['prepare']).toBe(scripts['build']);
  });

  it('without the packages that only building needs is left as it is', () => {
    for (const folder of ['src/setup', 'reports']) mkdirSync(join(root, folder), { recursive: true });
    cpSync('src/setup', join(root, 'src/setup'), { recursive: true });
    writeFileSync(join(root, 'tsconfig.json'), '{}');
    const run = (npm_lifecycle_event: string) =>
      spawnSync(process.execPath, [join(root, 'src/setup/build.mjs')], {
        env: { ...process.env, npm_lifecycle_event },
        encoding: 'utf8',
      });
    expect(run('prepare')).toMatchObject({ status: 0, stderr: '', stdout: '' });
    expect(run('build').status).toBe(1);
    expect(existsSync(join(root, 'dist'))).toBe(false);
  });
});
