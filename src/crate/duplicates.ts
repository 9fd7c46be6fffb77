import type { TrackOutline } from './outline.js';

/**
 * Files that hold the same audio, whatever their names and tags: groups of two and more, in the order of the files.
 * @public
 */
export function findDuplicates(tracks: readonly Pick<TrackOutline, 'source'>[]): string[][] {
  const byAudio = new Map<string, string[]>();
  for (const { source } of tracks) {
    const files = byAudio.get(source.audioDigest);
    if (files) files.push(source.file);
    else byAudio.set(source.audioDigest, [source.file]);
  }
  return [...byAudio.values()].filter((files) => files.length > 1);
}
