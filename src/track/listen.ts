import { resampleTo, toStereo, type AudioSource } from '../audio/index.js';
import { createLoudnessMeter, type Loudness } from '../loudness/index.js';
import { ANALYSIS_RATE, createFrontEnd, type FrontEnd } from '../signal/index.js';
import { createKeyFinder, type Key } from '../tonality/index.js';
import { throwIfAborted, type RunOptions } from '../units/index.js';

/** What one pass over the samples gives. */
export interface Heard {
  readonly frontEnd: FrontEnd;
  readonly loudness: Loudness;
  readonly key: Key;
}
