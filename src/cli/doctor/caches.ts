import { statfs } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { CACHE_FOLDER, cacheHealth, findTracks, tidyCache } from '../../crate/index.js';
import { ill, note, well, type Finding } from './finding.js';

/** Below this a crate may not get its cache, its cards or its practice audio. */
const ENOUGH_ROOM = 500e6;

/** The caches of these folders; with `tidy`, what no run will read again is deleted. */
export async function checkCaches(paths: readonly string[], options: { cacheFolder?: string; tidy?: boolean }) {
  const { files, failures } = await findTracks(paths);
  const findings: Finding[] = failures.map(({ file, message }) => ill(file, 'not read', message));
  const beside = options.cacheFolder ?? null;
  const folders = beside ? [beside] : [...new Set(files.map((file) => join(dirname(file), CACHE_FOLDER)))];
  for (const folder of folders) findings.push(...(await checkCache(folder, options.tidy === true)));
  for (const folder of paths) findings.push(...(await checkRoom(folder)));
  return findings;
}

async function checkCache(folder: string, tidy: boolean): Promise<Finding[]> {
  const health = await cacheHealth(folder);
  if (health === null) return [well(folder, 'no cache yet')];
  const { current, outdated, unreadable, leftovers, bytes } = health;
  const parts = [
    `${current} ${current === 1 ? 'analysis' : 'analyses'} of this version, ${size(bytes)} in all`,
    outdated.length > 0 ? `${outdated.length} of another version` : '',
    unreadable.length > 0 ? `${unreadable.length} unreadable` : '',
    leftovers.length > 0 ? `${leftovers.length} left over from runs that were killed` : '',
  ].filter(Boolean);
  const useless = outdated.length + unreadable.length + leftovers.length;
  if (useless === 0) return [well(folder, parts.join(', '))];
  if (!tidy) return [note(folder, parts.join(', '), 'with --tidy, what no run will read again is deleted')];
  return [well(folder, `${parts.join(', ')}; ${await tidyCache(health)} files deleted`)];
}

function size(bytes: number): string {
  return bytes < 1e6 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}

async function checkRoom(folder: string): Promise<Finding[]> {
  try {
    const { bavail, bsize } = await statfs(folder);
    const free = bavail * bsize;
    const found = `${(free / 1e9).toFixed(1)} GB free`;
    return [
      free < ENOUGH_ROOM
        ? note(`disk of ${folder}`, found, 'make room before a large crate')
        : well(`disk of ${folder}`, found),
    ];
  } catch {
    return [];
  }
}
