import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

/**
 * The compiler is told of a package that came or went by the system, which takes from milliseconds to seconds; it then
 * waits another second where folders lie in folders. A cell that imports what has just been installed would fail until
 * then. Here the folders that the compiler watches are looked at whenever somebody asks, and it hears at once.
 * @param host of the compiler's watching, whose watcher of folders is replaced by one that also does this
 * @returns looks at every watched folder, and tells the compiler what is new, gone or changed in it
 */
export function lookIntoFolders(host) {
  const { watchDirectory } = host;
  const watched = new Set();
  host.watchDirectory = (folder, callback, ...rest) => {
    const entry = { folder, callback, contents: contentsOf(folder) };
    watched.add(entry);
    const watcher = watchDirectory.call(host, folder, callback, ...rest);
    return {
      close() {
        watched.delete(entry);
        watcher.close();
      },
    };
  };
  return () => {
    for (const entry of watched) {
      const before = entry.contents;
      entry.contents = contentsOf(entry.folder);
      for (const path of differences(before, entry.contents)) entry.callback(path);
    }
  };
}

/** Every entry of a folder, and of the folders of scoped packages in it, with the time of its last change. */
function contentsOf(folder) {
  const found = new Map();
  for (const name of namesIn(folder)) {
    const path = join(folder, name);
    found.set(path, changeOf(path));
    if (name.startsWith('@'))
      for (const inner of namesIn(path)) found.set(join(path, inner), changeOf(join(path, inner)));
  }
  return found;
}

/** What is in one of two listings only, or has another time in them. */
function differences(before, after) {
  const paths = new Set([...before.keys(), ...after.keys()]);
  return [...paths].filter((path) => before.get(path) !== after.get(path));
}

/** Nothing for a folder that does not exist (yet, any more) or may not be read. */
function namesIn(folder) {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

/** In milliseconds since 1970; `null` for what cannot be asked (a link that leads nowhere). */
const changeOf = (path) => statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? null;
