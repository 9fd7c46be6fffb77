import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { newVersion } from '../../../src/setup/new-version.mjs';
import { PROJECT } from './packed.js';

const CLI = join(PROJECT, 'node_modules', '@changesets', 'cli', 'bin.js');
const OLD = '# Changes\n\n## 0.1.0\n\nThe first version.\n';

let root: string;
const text = (name: string) => readFileSync(join(root, name), 'utf8');
const entry = (name: string, size: string, words: string) => writeFileSync(join(root, '.changeset', `${name}.md`), `---\n'barwise': ${size}\n---\n\n${words}\n`); // prettier-ignore

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'barwise-version-'));
  mkdirSync(join(root, 'docs'));
  cpSync(join(PROJECT, '.changeset', 'config.json'), join(root, '.changeset', 'config.json'));
  cpSync(join(PROJECT, '.changeset', 'changelog.cjs'), join(root, '.changeset', 'changelog.cjs'));
  writeFileSync(join(root, 'docs', 'changelog.md'), OLD);
  writeFileSync(join(root, 'package.json'), JSON.stringify({ name: 'barwise', version: '0.1.0', devDependencies: { barwise: 'file:' } })); // prettier-ignore
  writeFileSync(join(root, 'package-lock.json'), JSON.stringify({ name: 'barwise', version: '0.1.0', packages: { '': { version: '0.1.0' } } })); // prettier-ignore
  for (const args of [['init', '-q', '-b', 'main'], ['add', '.'], ['-c', 'user.name=x', '-c', 'user.email=x@x', 'commit', '-q', '-m', 'x']]) execFileSync('git', args, { cwd: root }); // prettier-ignore
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

describe('a new version', () => {
  it('takes its number and its lines from the entries, and puts them above what there was', async () => {
    entry('quiet-buoy', 'minor', 'Corrections can be taken over from MIDI files.\n\nOnly the tempo map is read.');
    entry('loud-gull', 'patch', 'Cards of tracks without tags name their file.');
    await newVersion(root, CLI, () => undefined);
    expect(JSON.parse(text('package.json'))).toMatchObject({ version: '0.2.0' });
    expect(JSON.parse(text('package-lock.json'))).toMatchObject({ version: '0.2.0', packages: { '': { version: '0.2.0' } } }); // prettier-ignore
    const log = text('docs/changelog.md');
    expect(log).toMatch(/^# Changes\n\n## 0\.2\.0\n\n### Minor Changes\n\n- Corrections can be taken over from MIDI files\.\n\n {2}Only the tempo map is read\.\n\n### Patch Changes\n\n- Cards of tracks without tags name their file\.\n\n## 0\.1\.0\n/); // prettier-ignore
    expect([existsSync(join(root, 'CHANGELOG.md')), existsSync(join(root, '.changeset', 'quiet-buoy.md'))]).toEqual([false, false]); // prettier-ignore
  });

  it('leaves the changelog where it is when something is wrong with an entry', async () => {
    writeFileSync(join(root, '.changeset', 'odd.md'), "---\n'somebody-else': minor\n---\n\nWords.\n");
    await expect(newVersion(root, CLI, () => undefined)).rejects.toThrow(/somebody-else/);
    expect(text('docs/changelog.md')).toBe(OLD);
  });
});

it('has the present version on top of the changelog', () => {
  const { version } = JSON.parse(readFileSync(join(PROJECT, 'package.json'), 'utf8')) as { version: string };
  const log = readFileSync(join(PROJECT, 'docs', 'changelog.md'), 'utf8');
  expect(/^## (\S+)$/m.exec(log)?.[1]).toBe(version);
});
