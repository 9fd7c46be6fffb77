import { logitScore, PHASE_WEIGHTS } from '../learned/index.js';
import type { Seconds } from '../units/index.js';
import { tempoCues } from './beat-cues.js';
import { clearOnes } from './clear-ones.js';
import { withClearness } from './close-scores.js';
import type { GridConstraints } from './grid.js';
import type { Heard } from './heard.js';
import { smoothed } from './onsets.js';
import { readingCues } from './reading-cues.js';
import type { PhaseSegment } from './lasting-jumps.js';
import { phaseSegments } from './phase-jumps.js';
import { regularBeats } from './readings.js';
import { straightTime } from './straight-time.js';
import { tempoCandidates } from './tempo-candidates.js';
import { toldBeat } from './told-bars.js';
import { ONES_OF_PHASE, weighBeats, type WeighedBeats } from './weigh-beats.js';

/** A change of phase smaller than this is left to the transients (share of a beat). */
const SMALL_SHIFT = 0.06;

/** The chosen pulse: where beats are expected, to within some ten milliseconds. */
export interface Pulse extends WeighedBeats {
  readonly expected: readonly Seconds[];
  /** Whether the expected beats are one unbroken steady grid. */
  readonly steady: boolean;
  /** How clear the pulse is: Fourier strength of the chosen tempo per row of onsets of mean 1. */
  readonly clarity: number;
}

/** Chooses tempo and phase, on a straightened time axis where the music is not steady. */
export function findPulse(heard: Heard, constraints: GridConstraints): Pulse {
  const { straight, candidates } = straightTime(heard.onsets);
  const toAxis = straight?.toStraight ?? ((t: Seconds) => t);
  const scene: Heard = straight
    ? { ...heard, onsets: straight.onsets, end: toAxis(heard.end), toTime: straight.toTime }
    : heard;
  const beatAt = toldBeat(constraints);
  const bound: GridConstraints = beatAt === undefined ? constraints : { ...constraints, beatAt: toAxis(beatAt) };
  const told = bound.tempo !== undefined || bound.tempoRange !== undefined;
  const weighed = weighBeats(scene, bound, told ? tempoCandidates(scene.onsets, bound) : candidates);
  const { onsets } = scene;
  const segments = significant(phaseSegments(onsets, onsets.bands.map(smoothed), weighed.chosen.beats));
  const unbroken = segments.length === 1;
  const { beats, attack } = unbroken ? weighed.chosen : relay(scene, weighed, segments, bound);
  return {
    ...weighed,
    expected: Array.from(beats, (b) => scene.toTime(b - attack)),
    steady: unbroken && straight === null,
    clarity: weighed.chosen.fit.strength / Math.max(onsets.rows, 1),
  };
}

function significant(segments: readonly PhaseSegment[]): PhaseSegment[] {
  const out: PhaseSegment[] = [];
  for (const s of segments) {
    const last = out[out.length - 1];
    const d = last ? Math.abs(s.shift - last.shift) : 0.5;
    if (Math.min(d, 1 - d) > SMALL_SHIFT) out.push(s);
  }
  return out;
}

/** Beats along the segments, the phase chosen anew now that nothing blurs the folds. */
function relay(
  scene: Heard,
  weighed: WeighedBeats,
  segments: readonly PhaseSegment[],
  bound: GridConstraints,
): { beats: readonly Seconds[]; attack: Seconds } {
  const { chosen, rivals } = weighed;
  const axis = scene.onsets;
  const candidates = tempoCandidates(axis, { tempo: 60 * chosen.frequency });
  const tempo = tempoCues(axis, candidates, chosen.frequency);
  const bands = axis.bands.map(smoothed);
  const laid = rivals.map(({ phase }) =>
    alongSegments(chosen.beats, 1 / chosen.frequency, phase - chosen.phase, segments),
  );
  const scores = laid.map((beats) => {
    const near = bound.beatAt === undefined || beats.some((b) => Math.abs(b - bound.beatAt!) <= 0.07);
    return logitScore(PHASE_WEIGHTS, readingCues(scene, bands, Float64Array.from(beats), tempo)) - (near ? 0 : 1e3);
  });
  const clearer = withClearness(scores, ONES_OF_PHASE, (i) => clearOnes(scene, laid[i], bound.beatsPerBar));
  const best = clearer.indexOf(Math.max(...clearer));
  return { beats: laid[best], attack: rivals[best].attack };
}

function alongSegments(
  grid: Float64Array,
  period: Seconds,
  offset: Seconds,
  segments: readonly PhaseSegment[],
): number[] {
  const beats: number[] = [];
  segments.forEach(({ beat, shift }, i) => {
    const from = grid[beat];
    const to = segments[i + 1] ? grid[segments[i + 1].beat] : grid[grid.length - 1] + period;
    for (const b of regularBeats(period, grid[0] + offset + shift * period, to)) {
      const last = beats[beats.length - 1];
      if (b >= (i === 0 ? 0 : from) && (last === undefined || b - last > 0.7 * period)) beats.push(b);
    }
  });
  return beats;
}
