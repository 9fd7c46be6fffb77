import { basename } from 'node:path';
import type { TrackAnalysis } from '../../src/index.js';
import { cannotBeSet } from '../layout/direction.js';
import type { Style } from '../theme/index.js';

/** Length of the piece of a digest that stands for a track whose names cannot be set. */
const DIGEST_LETTERS = 8;

/** The title, or the file's name where a track has none or one that cannot be set. */
export function titleOf({ source }: TrackAnalysis, { print }: Style): string {
  const given = [source.tags.title?.trim() ?? '', basename(source.file)];
  const set = given.find((name) => name !== '' && !cannotBeSet(name));
  return set ?? print.warnings.unnamed(source.audioDigest.slice(0, DIGEST_LETTERS));
}

/** The artist; empty where none is named or the name cannot be set. */
export function artistOf({ source }: TrackAnalysis): string {
  const name = source.tags.artist?.trim() ?? '';
  return cannotBeSet(name) ? '' : name;
}

/** Name of a track among others: for bookmarks, an index and the document's title. */
export function trackName(analysis: TrackAnalysis, style: Style): string {
  const artist = artistOf(analysis);
  return artist === '' ? titleOf(analysis, style) : `${artist}: ${titleOf(analysis, style)}`;
}
