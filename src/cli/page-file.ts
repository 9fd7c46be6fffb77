import { dirname, isAbsolute, relative, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { writeAtomically } from '../audio/index.js';
import { analyseCrate, type CrateOptions } from '../crate/index.js';
import { PAGE_MARK, renderPage, type PageOptions, type PageTrack } from '../player/index.js';
import type { TrackAnalysis } from '../track/index.js';
import { tempoDoubt } from '../wording/index.js';
import type { OutputKind } from './output-file.js';

export const PAGE_KIND: OutputKind = { ending: '.html', is: (start) => start.includes(PAGE_MARK) };

/**
 * Writes the playable page of some tracks. Where it is in doubt which of two tempos one counts, the track is analysed
 * under the other one as well, so that the page can offer it.
 */
export async function writePage(
  file: string,
  tracks: readonly TrackAnalysis[],
  options: PageOptions & { readonly analysis: CrateOptions },
): Promise<void> {
  const pageTracks: PageTrack[] = [];
  for (const analysis of tracks) {
    pageTracks.push({
      analysis,
      audio: audioUrl(file, analysis.source.file),
      alternatives: await otherReadings(analysis, options.analysis),
    });
  }
  await writeAtomically(file, [new TextEncoder().encode(renderPage(pageTracks, options))]);
}

async function otherReadings(analysis: TrackAnalysis, options: CrateOptions): Promise<readonly TrackAnalysis[]> {
  const other = tempoDoubt(analysis)?.[1];
  if (!other || options.constraints?.grid?.tempo !== undefined) return [];
  const constraints = { grid: { tempo: other.bpm } };
  const { tracks } = await analyseCrate([analysis.source.file], { ...options, constraints });
  return tracks;
}

/** Where a page finds the sound of a track: relative to itself, so that folder and page can be moved together. */
export function audioUrl(page: string, audio: string): string {
  const path = relative(dirname(resolve(page)), resolve(audio));
  if (isAbsolute(path)) return pathToFileURL(audio).href;
  return path.split(sep).map(encodeURIComponent).join('/');
}
