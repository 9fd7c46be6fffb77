import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';

/** Every file under a folder as a path from `root` with forward slashes, sorted; an absent folder has none. */
export function filesUnder(root, folder) {
  let entries;
  try {
    entries = readdirSync(join(root, folder), { withFileTypes: true });
  } catch (error) {
    if (error.code === 'ENOENT') return [];
    throw error;
  }
  return entries
    .flatMap((e) => (e.isDirectory() ? filesUnder(root, `${folder}/${e.name}`) : [`${folder}/${e.name}`]))
    .sort();
}

/** A digest that changes when any of the files changes its size or date, or when one comes or goes. */
export function stateOf(root, files) {
  const hash = createHash('sha256');
  for (const file of files) {
    const { size, mtimeMs } = statSync(join(root, file));
    hash.update(`${file} ${size} ${mtimeMs}\n`);
  }
  return hash.digest('hex');
}

/** A short digest of what the files say, in hexadecimal; dates and places do not count. */
export function contentOf(root, files) {
  const hash = createHash('sha256');
  for (const file of files) hash.update(`${file}\n`).update(readFileSync(join(root, file)));
  return hash.digest('hex').slice(0, 12);
}
