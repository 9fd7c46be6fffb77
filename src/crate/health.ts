import { readdir, readFile, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { analysisIdentity } from '../track/index.js';

/** The state of a cache folder. @experimental */
export interface CacheHealth {
  readonly folder: string;
  /** Analyses of this version of the program. */
  readonly current: number;
  /** Analyses of other versions: never read again. */
  readonly outdated: readonly string[];
  /** Files that look like analyses and are none. */
  readonly unreadable: readonly string[];
  /** Temporary files of runs that were killed. */
  readonly leftovers: readonly string[];
  readonly bytes: number;
}

/** An analysis is named by a digest, and by the digests of options and corrections. */
const ANALYSIS = /^[0-9a-f]{64}(\.[0-9a-f]{16}){0,2}\.json$/;
const TEMPORARY = /^\.[0-9a-f]{12}\.tmp$/;
/** A temporary file that is younger may still be written. */
const LEFT_AFTER_MS = 60_000;

/** Looks through a cache folder; `null` when there is none. Changes nothing. @experimental */
export async function cacheHealth(folder: string): Promise<CacheHealth | null> {
  const names = await readdir(folder).catch(() => null);
  if (names === null) return null;
  const [outdated, unreadable, leftovers]: string[][] = [[], [], []];
  let [current, bytes] = [0, 0];
  const { version, weightsId, frontEndId } = analysisIdentity();
  for (const name of names) {
    const file = join(folder, name);
    const status = await stat(file).catch(() => null);
    if (!status?.isFile()) continue;
    bytes += status.size;
    if (TEMPORARY.test(name) && Date.now() - status.mtimeMs > LEFT_AFTER_MS) leftovers.push(file);
    if (!ANALYSIS.test(name)) continue;
    const made = await identityIn(file);
    if (made === null) unreadable.push(file);
    else if (made.version === version && made.weightsId === weightsId && made.frontEndId === frontEndId) current++;
    else outdated.push(file);
  }
  return { folder, current, outdated, unreadable, leftovers, bytes };
}

/** Deletes what no run will ever read again, and gives the number of files. @experimental */
export async function tidyCache({ outdated, unreadable, leftovers }: CacheHealth): Promise<number> {
  const useless = [...outdated, ...unreadable, ...leftovers];
  for (const file of useless) await rm(file, { force: true });
  return useless.length;
}

/** Enough of an analysis to tell what made it. */
const madeBySchema = z.object({
  analysis: z.object({ version: z.string(), weightsId: z.string(), frontEndId: z.string() }),
});

async function identityIn(file: string) {
  try {
    const parsed = madeBySchema.safeParse(JSON.parse(await readFile(file, 'utf8')));
    return parsed.success ? parsed.data.analysis : null;
  } catch {
    return null;
  }
}
