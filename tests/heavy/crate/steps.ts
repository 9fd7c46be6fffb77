import { readFileSync } from 'node:fs';
import type { CrateSteps } from '../../../src/crate/steps.js';
import { analysisIdentity } from '../../../src/track/index.js';
import { sampleAnalysis } from '../../support/sample-analysis.js';

/** Steps that take a file's text for its digest and analyse in no time, so that a run is all writing. */
export function writingSteps(analysed: string[] = []): CrateSteps {
  const sample = sampleAnalysis();
  const source = (file: string) => ({ ...sample.source, file, audioDigest: readFileSync(file, 'utf8') });
  return {
    inspect: (file) => Promise.resolve(source(file)),
    identity: analysisIdentity,
    analyse(file, options) {
      analysed.push(file);
      return Promise.resolve({ ...sample, source: source(file), analysis: analysisIdentity(options) });
    },
    close: () => Promise.resolve(),
  };
}
