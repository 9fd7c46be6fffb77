import { mkdir, readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { writeAtomically, writeTrouble, type AudioFileInfo } from '../audio/index.js';
import { trackAnalysisSchema, type TrackAnalysis } from '../track/index.js';
import { BarwiseError } from '../units/index.js';

/** The folder beside the music that holds finished analyses; deleting it loses nothing but time. @public */
export const CACHE_FOLDER = '.barwise';

export type Identity = TrackAnalysis['analysis'];

/**
 * Where the analysis of a track is kept: one file a track, named by the digest of its audio. Readings that somebody
 * asked for by a constraint stand beside it under the digest of that, so that neither pushes out the other.
 */
export function cacheFile(info: AudioFileInfo, identity: Identity, cacheFolder?: string): string {
  const special = [identity.optionsDigest, identity.correctionsDigest].filter((digest) => digest !== 'none');
  const name = [info.audioDigest, ...special, 'json'].join('.');
  return join(cacheFolder ?? join(dirname(info.file), CACHE_FOLDER), name);
}

/**
 * A finished analysis of this audio made by exactly this program and these options, `null` when there is none. The
 * name and the tags are those the file has now. A damaged or foreign file in the cache counts as none.
 */
export async function readCached(file: string, info: AudioFileInfo, identity: Identity): Promise<TrackAnalysis | null> {
  let data: unknown;
  try {
    data = JSON.parse(await readFile(file, 'utf8'));
  } catch {
    return null;
  }
  const parsed = trackAnalysisSchema.safeParse(data);
  if (!parsed.success) return null;
  const analysis = parsed.data;
  const same = Object.entries(identity).every(([name, value]) => analysis.analysis[name as keyof Identity] === value);
  if (!same || analysis.source.audioDigest !== info.audioDigest) return null;
  return { ...analysis, source: { ...analysis.source, file: info.file, tags: { ...info.tags } } };
}

/**
 * Keeps a finished analysis. The name never holds half a file: temporary file, flush, rename. Throws BarwiseError
 * `cannot-write`; a caller with a read-only folder goes on without a cache.
 */
export async function writeCached(file: string, analysis: TrackAnalysis): Promise<void> {
  await mkdir(dirname(file), { recursive: true }).catch((cause: unknown) => {
    throw new BarwiseError('cannot-write', `${file} could not be written (${writeTrouble(cause)}): check the folder.`, {
      file,
      cause,
    });
  });
  await writeAtomically(file, [new TextEncoder().encode(JSON.stringify(analysis))]);
}
