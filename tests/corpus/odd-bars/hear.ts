import { nearest } from '../../../src/evaluation/matching.js';
import { EVIDENCE } from '../../../src/rhythm/bar-path.js';
import { beatFeatures } from '../../../src/rhythm/beat-features.js';
import { describeBeats } from '../../../src/rhythm/describe-beats.js';
import { extendBeats } from '../../../src/rhythm/extend-beats.js';
import { soundExtent } from '../../../src/rhythm/extent.js';
import { hearFrontEnd } from '../../../src/rhythm/heard.js';
import { layBeats } from '../../../src/rhythm/lay-beats.js';
import { modulo } from '../../../src/rhythm/modulo.js';
import { oddBarCandidates, type OddBarCandidate } from '../../../src/rhythm/odd-bar-cues.js';
import { findPulse } from '../../../src/rhythm/pulse.js';
import { slipEvidence } from '../../../src/rhythm/slips.js';
import { weighBars } from '../../../src/rhythm/weigh-bars.js';
import type { OddMusic } from './music.js';

export interface HeardCandidate extends OddBarCandidate {
  readonly right: boolean;
}

/** A candidate this many bars off is right: on which bar an odd one lies is settled afterwards. */
const REACH_BARS = 4;

/** The candidates of some music as the analysis finds them; those with the right surplus near a true odd bar are right. */
export function heardCandidates({ hear, odd }: OddMusic): HeardCandidate[] {
  const frontEnd = hear();
  const heard = hearFrontEnd(frontEnd);
  const pulse = findPulse(heard, {});
  const laid = layBeats(frontEnd, pulse.expected, pulse.steady);
  const { beats, end } = extendBeats(laid, pulse.expected.length, soundExtent(frontEnd));
  const edges = [...beats, end];
  const features = beatFeatures(frontEnd, heard.logs, heard.onsets, edges);
  const rows = describeBeats(frontEnd, heard.logs, features, edges);
  const { beatsPerBar, evidence: all } = weighBars(features, rows);
  const evidence = all.map((v) => EVIDENCE * v);
  const next = odd.map(({ time, surplus }) => ({ surplus, beat: nearest(edges, time) }));
  return oddBarCandidates({ evidence, beatsPerBar, slip: slipEvidence(rows, beatsPerBar) }).map((c) => ({
    ...c,
    right: next.some(
      (o) => modulo(o.surplus - c.surplus, beatsPerBar) === 0 && Math.abs(o.beat - c.beat) <= REACH_BARS * beatsPerBar,
    ),
  }));
}
