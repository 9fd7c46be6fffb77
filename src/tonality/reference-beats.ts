import type { Seconds } from '../units/index.js';
import { startEssentia, type BeatMethod } from './essentia.js';

/** Mean power below which there is nothing to find (−90 dBFS): silence once gave 738 BPM. */
const SILENT = 1e-9;

/**
 * Beats as essentia.js' RhythmExtractor2013 finds them: a reference for evaluation and tests, not used in the analysis.
 *
 * @param mono a whole track at 44.1 kHz, at most about 40 minutes
 * @param method `multifeature` (Zapata et al. 2014) or the faster `degara` (Degara et al. 2012)
 * @returns beat times in seconds, none for silence
 */
export async function referenceBeats(mono: Float32Array, method: BeatMethod = 'multifeature'): Promise<Seconds[]> {
  let power = 0;
  for (const x of mono) power += x * x;
  if (!(power > SILENT * mono.length)) return [];
  const thread = startEssentia();
  try {
    const { ticks } = await thread.beats(mono.slice(), method);
    return Array.from(ticks);
  } finally {
    await thread.close();
  }
}
