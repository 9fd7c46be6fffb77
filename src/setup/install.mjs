import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { runQuietly } from './run-quietly.mjs';

/** Installs the packages of the lock file where they are missing or others; says so through `say`. */
export async function ensureInstalled(root, say) {
  const reason = whyInstall(root);
  if (reason === null) return;
  say(`Installing the packages (${reason}); this takes a minute or two and happens once.`);
  const [command, first] = npm();
  await runQuietly(command, [...first, 'ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    what: 'The installation',
    say,
    shell: process.platform === 'win32' && command === 'npm',
  });
}

/** Why the packages must be installed, in a few words; `null` when they are there. */
export function whyInstall(root) {
  const lock = join(root, 'package-lock.json');
  const installed = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(installed)) return 'none are there yet';
  if (statSync(installed).mtimeMs >= statSync(lock).mtimeMs) return null;
  return sameVersions(read(lock), read(installed)) ? null : 'the lock file has changed';
}

/** Whether what is installed is what the lock file asks for; packages for other platforms may be absent. */
export function sameVersions(lock, installed) {
  const wanted = packagesOf(lock);
  const there = packagesOf(installed);
  for (const [path, { version }] of there) if (wanted.get(path)?.version !== version) return false;
  for (const [path, { optional }] of wanted) if (!optional && !there.has(path)) return false;
  return true;
}

function packagesOf(lock) {
  const entries = Object.entries(lock.packages ?? {}).filter(([path]) => path.startsWith('node_modules/'));
  return new Map(
    entries.map(([path, p]) => [path, { version: p.version, optional: p.optional || p.devOptional || p.peer }]),
  );
}

function read(file) {
  return JSON.parse(readFileSync(file, 'utf8'));
}

/** The npm that started us, as a script for this Node; its plain name when we were started otherwise. */
function npm() {
  const script = process.env.npm_execpath;
  return script && /npm-cli\.[cm]?js$/.test(script) ? [process.execPath, [script]] : ['npm', []];
}
