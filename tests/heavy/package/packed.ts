import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's own folder. */
export const PROJECT = fileURLToPath(new URL('../../..', import.meta.url));

export interface Packed {
  /** The tarball. */
  readonly file: string;
  /** Bytes of the tarball. */
  readonly size: number;
  readonly files: readonly { readonly path: string; readonly size: number }[];
}

/** Packs the package as it would be published, `prepare` and all, into a folder. */
export function pack(folder: string): Packed {
  mkdirSync(folder, { recursive: true });
  const args = ['pack', '--json', '--loglevel', 'error', '--pack-destination', folder];
  const out = execFileSync('npm', args, { cwd: PROJECT, encoding: 'utf8' });
  // What the build says stands before the list.
  const [packed] = JSON.parse(out.slice(out.search(/^\[/m))) as { filename: string; size: number; files: Packed['files'] }[]; // prettier-ignore
  return { file: join(folder, packed.filename), size: packed.size, files: packed.files };
}

/** A new project with the package in it, and nothing else but what is named. */
export function newProject(folder: string, ...packages: readonly string[]): void {
  mkdirSync(folder, { recursive: true });
  npm(folder, 'init', '--yes');
  npm(folder, 'pkg', 'set', 'type=module');
  install(folder, ...packages);
}

export function install(folder: string, ...packages: readonly string[]): void {
  npm(folder, 'install', '--no-audit', '--no-fund', '--prefer-offline', '--loglevel', 'error', ...packages);
}

/** A package at the version that this project holds it to. */
export function asHere(name: string): string {
  const { devDependencies } = JSON.parse(readFileSync(join(PROJECT, 'package.json'), 'utf8')) as { devDependencies: Record<string, string> }; // prettier-ignore
  return `${name}@${devDependencies[name]}`;
}

/** Writes files into a folder. */
export function put(folder: string, files: Readonly<Record<string, string | Uint8Array>>): void {
  for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
}

function npm(folder: string, ...args: readonly string[]): void {
  execFileSync('npm', args, { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
}
