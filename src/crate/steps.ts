import type { AudioFileInfo } from '../audio/index.js';
import {
  analyseTrack,
  analysisIdentity,
  inspectTrack,
  type AnalyseOptions,
  type TrackAnalysis,
} from '../track/index.js';
import type { Identity } from './cache.js';
import { asError } from './failure.js';
import { createPool, type AnalysisPool } from './pool.js';

/** What the crate asks of the rest of the program. */
export interface CrateSteps {
  inspect(file: string, options: AnalyseOptions): Promise<AudioFileInfo>;
  identity(options: AnalyseOptions): Identity;
  analyse(file: string, options: AnalyseOptions): Promise<TrackAnalysis>;
  close(): Promise<void>;
}

/** The real steps: one track at a time in this thread, more in a pool that starts with the first that is not cached. */
export function openSteps(workers: number): CrateSteps {
  let pool: AnalysisPool | undefined;
  return {
    inspect: inspectTrack,
    identity: analysisIdentity,
    async analyse(file, options) {
      if (workers === 1) return analyseTrack(file, options);
      pool ??= createPool(workers);
      const answer = await pool.run(file, options, options);
      if ('analysis' in answer) return answer.analysis;
      throw asError(answer.failure);
    },
    close: async () => pool?.close(),
  };
}
