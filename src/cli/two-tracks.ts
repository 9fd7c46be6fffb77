import { basename } from 'node:path';
import { analyseCrate, trackName } from '../crate/index.js';
import type { TrackAnalysis } from '../track/index.js';
import { BarwiseError } from '../units/index.js';
import { crateOptions, type AnalysisArguments } from './arguments.js';
import type { Io } from './io.js';
import { showProgress } from './progress.js';
import { reportFailures } from './report-failures.js';

/** Analyses two files in the order given. Throws BarwiseError with what is wrong with the first that cannot be read. */
export async function analyseTwo(
  files: readonly [string, string],
  given: AnalysisArguments,
  io: Io,
): Promise<[TrackAnalysis, TrackAnalysis]> {
  const { onProgress, onTrack, stop } = showProgress(io, {});
  try {
    const out: TrackAnalysis[] = [];
    for (const file of files) {
      const crate = await analyseCrate([file], {
        ...crateOptions(given, io.env),
        onProgress,
        onTrack,
        signal: io.signal,
      });
      const [track] = crate.tracks;
      if (crate.tracks.length !== 1) {
        stop();
        reportFailures(io, crate);
        throw new BarwiseError(
          'bad-option',
          `${basename(file)} does not give one track: give one audio file for A and one for B.`,
        );
      }
      out.push(track);
    }
    return [out[0], out[1]];
  } finally {
    stop();
  }
}

/** What a track is called in a sentence. */
export function calledSo(track: TrackAnalysis): string {
  return trackName(track);
}
