import type { BoundaryCues } from './boundary-cues.js';
import type { BoundaryScores } from './lattice.js';
import { oddsOfRows, type Trees } from '../learned/index.js';

/** Fitted scores for "a phrase starts here" and "a section starts here", and how the decoder weighs them. */
export interface BoundaryWeights {
  readonly phrase: Trees;
  readonly section: Trees;
  /** A phrase start scores phraseScale · odds + phraseBias; a section start adds the same of its own. */
  readonly phraseScale: number;
  readonly phraseBias: number;
  readonly sectionScale: number;
  readonly sectionBias: number;
}

/** Turns cues into the nats that the decoder adds up. The first bar is a start whatever it scores. */
export function boundaryScores(cues: BoundaryCues, weights: BoundaryWeights): BoundaryScores {
  const bars = cues.values.length / cues.columns;
  const phrase = new Float64Array(bars);
  const section = new Float64Array(bars);
  const [toPhrase, toSection] = [oddsOfRows(weights.phrase, cues), oddsOfRows(weights.section, cues)];
  for (let b = 1; b < bars; b++) {
    phrase[b] = weights.phraseScale * toPhrase[b] + weights.phraseBias;
    section[b] = weights.sectionScale * toSection[b] + weights.sectionBias;
  }
  return { phrase, section };
}
