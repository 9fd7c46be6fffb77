import { readdir } from 'node:fs/promises';
import { basename, join } from 'node:path';

/** Finds an analysis that is kept in another folder of the crate: the track has been moved. */
export interface Elsewhere {
  /** Where else a file of this name is kept. */
  places(place: string): Promise<string[]>;
}

/** Looks through cache folders, each of them once and not before something is missing. */
export function openElsewhere(folders: readonly string[]): Elsewhere {
  let listed: Promise<Map<string, string[]>> | undefined;
  return {
    async places(place) {
      listed ??= list(folders);
      return ((await listed).get(basename(place)) ?? []).filter((other) => other !== place);
    },
  };
}

async function list(folders: readonly string[]): Promise<Map<string, string[]>> {
  const places = new Map<string, string[]>();
  for (const folder of new Set(folders))
    for (const name of await readdir(folder).catch(() => []))
      places.set(name, [...(places.get(name) ?? []), join(folder, name)]);
  return places;
}
