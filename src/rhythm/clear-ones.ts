import type { Seconds } from '../units/index.js';
import { beatFeatures } from './beat-features.js';
import { describeBeats } from './describe-beats.js';
import type { Heard } from './heard.js';
import { clearness, weighBars } from './weigh-bars.js';

/** Fewer beats than this have no bars to compare. */
const FEWEST_BEATS = 8;

/**
 * How clear the ones are when a track is counted this way: the score of the likeliest phase of its bars (nats). A count that is
 * off the beat, or at another tempo, has its departures and strokes between its beats, and no phase of its bars stands out.
 * Our own cue.
 * @param beats on the clock of the onsets
 * @param beatsPerBar where somebody has said it
 */
export function clearOnes(heard: Heard, beats: ArrayLike<Seconds>, beatsPerBar?: number): number {
  const edges = Array.from(beats, heard.toTime);
  if (edges.length <= FEWEST_BEATS) return 0;
  const features = beatFeatures(heard.frontEnd, heard.logs, heard.onsets, edges);
  const bars = weighBars(features, describeBeats(heard.frontEnd, heard.logs, features, edges), beatsPerBar);
  return clearness(bars.evidence, bars.beatsPerBar);
}
