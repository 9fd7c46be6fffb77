import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runQuietly } from './run-quietly.mjs';

/** Changesets writes the changelog here and nowhere else; ours is part of the documentation. */
const THEIRS = 'CHANGELOG.md';
const OURS = join('docs', 'changelog.md');

/** Makes a new version of the entries in `.changeset`: its number in package.json, its changes in docs/changelog.md. */
export async function newVersion(root, cli, say) {
  renameSync(join(root, OURS), join(root, THEIRS));
  try {
    await runQuietly(process.execPath, [cli, 'version'], { cwd: root, what: 'The new version', say });
  } finally {
    renameSync(join(root, THEIRS), join(root, OURS));
  }
  takeLockAlong(root);
}

/** The lock file names the version too. */
function takeLockAlong(root) {
  const file = join(root, 'package-lock.json');
  if (!existsSync(file)) return;
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const lock = JSON.parse(readFileSync(file, 'utf8'));
  lock.version = version;
  if (lock.packages?.['']) lock.packages[''].version = version;
  writeFileSync(file, `${JSON.stringify(lock, null, 2)}\n`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
  try {
    await newVersion(root, join(root, 'node_modules', '@changesets', 'cli', 'bin.js'), console.log);
  } catch (error) {
    console.error(error.message);
    process.exitCode = 1;
  }
}
