import { analyseCrate, type CrateAnalysis } from '../crate/index.js';
import { crateOptions, type AnalysisArguments } from './arguments.js';
import type { Io } from './io.js';
import { showProgress } from './progress.js';
import { reportFailures } from './report-failures.js';

/** How an analysis is shown. */
export interface AnalysisShown {
  /** Without a terminal, a line for every finished track. */
  readonly lines?: boolean;
  /** The caller says what failed, after its table. */
  readonly failuresLater?: boolean;
}

/** Analyses what the command line names, shows progress, and says what failed. */
export async function analyse(
  paths: readonly string[],
  given: AnalysisArguments,
  io: Io,
  show: AnalysisShown = {},
): Promise<CrateAnalysis> {
  const options = crateOptions(given, io.env);
  const { onProgress, onTrack, stop } = showProgress(io, show);
  try {
    const crate = await analyseCrate(paths, { ...options, onProgress, onTrack, signal: io.signal });
    stop();
    if (!show.failuresLater) reportFailures(io, crate);
    return crate;
  } finally {
    stop();
  }
}
