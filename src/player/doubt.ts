import type { TrackAnalysis } from '../track/index.js';
import type { Bpm, Fraction } from '../units/index.js';

/** Share of the chosen reading's evidence that the other octave must have to be a doubt; as in the printed wording. */
const RIVAL: Fraction = 0.35;
/** How far from exactly double or half two readings may be and still be each other's octave. */
const OCTAVE_TOLERANCE = 0.02;
/** Share of the bars in half-time passages from which people differ about the tempo of the whole track. */
const PART: Fraction = 0.15;

/** One of two tempos a track can be counted at. `weight` is its share of the evidence, `null` where it was not weighed. */
export interface TempoReading {
  readonly bpm: Bpm;
  readonly weight: Fraction | null;
}

/**
 * The two tempos between which a track can be counted, the chosen one first, when one is twice the other and both have
 * evidence; `null` when there is no such doubt.
 */
export function tempoDoubt(analysis: TrackAnalysis): readonly [TempoReading, TempoReading] | null {
  const { bpm, alternatives } = analysis.tempo;
  const chosen = { bpm, weight: alternatives[0]?.weight ?? null };
  const octaves = alternatives.filter((a) => isOctave(a.bpm, bpm)).sort((a, b) => b.weight - a.weight);
  const [other] = octaves;
  if (other && other.weight >= RIVAL * (chosen.weight ?? 0)) return [chosen, other];
  const felt = halfTimeFeel(analysis);
  if (felt === null) return null;
  return [chosen, octaves.find((a) => isSame(a.bpm, felt)) ?? { bpm: felt, weight: null }];
}

/** The tempo at which a good part of the track is felt when that is half of what is counted; `null` otherwise. */
function halfTimeFeel(analysis: TrackAnalysis): Bpm | null {
  const passages = analysis.irregularities.filter((i) => i.kind === 'half-time');
  const bars = passages.reduce((sum, i) => sum + Number(i.parameters.endBar ?? i.bar) - i.bar + 1, 0);
  const felt = Number(passages[0]?.parameters.feltBpm);
  return felt > 0 && !isSame(felt, analysis.tempo.bpm) && bars >= PART * analysis.bars.length ? felt : null;
}

/** Whether one tempo is twice the other. @example isOctave(87, 174) // true */
export function isOctave(a: Bpm, b: Bpm): boolean {
  return isSame(a, 2 * b) || isSame(2 * a, b);
}

function isSame(a: Bpm, b: Bpm): boolean {
  return Math.abs(a / b - 1) <= OCTAVE_TOLERANCE;
}

/** A tempo as people say it. @example spokenTempo(174.003) // '174' */
export function spokenTempo(bpm: Bpm): string {
  const whole = Math.round(bpm);
  return Math.abs(bpm - whole) < 0.05 ? `${whole}` : bpm.toFixed(1);
}

/** The doubt as a question. @example doubtQuestion([{ bpm: 174, weight: 0.6 }, { bpm: 87, weight: 0.4 }]) // '87 or 174?' */
export function doubtQuestion(readings: readonly TempoReading[]): string {
  const tempos = readings.map((r) => r.bpm).sort((a, b) => a - b);
  return `${tempos.map(spokenTempo).join(' or ')}?`;
}
