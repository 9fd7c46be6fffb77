import type { Bpm, Fraction } from '../units/index.js';
import { wordsOf, type Speech } from './languages.js';

/** A second reading with at least this share of the first one's weight is told beside it. */
const RIVAL: Fraction = 0.35;
/** How far from each other (or from exactly double) two tempos may be and still be the same (or octaves). */
const TOLERANCE = 0.02;
/** Share of the bars in half-time passages from which people differ about the tempo of the whole track. */
const PART: Fraction = 0.15;
/** A tempo this close to a whole number is said whole (BPM). */
const WHOLE: Bpm = 0.05;

/** One of two tempos a track can be counted at. `weight` is its share of the evidence, `null` where it was not weighed. */
export interface TempoReading {
  readonly bpm: Bpm;
  readonly weight: Fraction | null;
}

/** As much of a track as the question "87 or 174?" needs; an analysis has it, and so has its outline. */
export interface TempoQuestion {
  readonly tempo: {
    readonly bpm: Bpm;
    readonly alternatives: readonly { readonly bpm: Bpm; readonly weight: Fraction }[];
  };
  readonly phrases: readonly { readonly bars: number }[];
  readonly irregularities: readonly {
    readonly kind: string;
    readonly bar: number;
    readonly parameters: Readonly<Record<string, number | string>>;
  }[];
  /** What somebody has said; a tempo among it settles the question. */
  readonly corrections?: readonly { readonly kind: string }[];
}

/**
 * The two tempos at which a track may be counted, the chosen one first: a rival with a good part of the evidence, or the
 * half at which a good part of the track is felt. `null` where there is no such doubt, or somebody has settled it.
 */
export function tempoDoubt(track: TempoQuestion): readonly [TempoReading, TempoReading] | null {
  if (track.corrections?.some((c) => c.kind === 'tempo')) return null;
  const { bpm, alternatives } = track.tempo;
  const chosen = { bpm, weight: alternatives[0]?.weight ?? null };
  const others = alternatives.filter((a) => !isSame(a.bpm, bpm)).sort((a, b) => b.weight - a.weight);
  const [rival] = others;
  if (rival && rival.weight >= RIVAL * (chosen.weight ?? 0)) return [chosen, rival];
  const felt = halfTimeFeel(track);
  if (felt === null) return null;
  return [chosen, others.find((a) => isSame(a.bpm, felt)) ?? { bpm: felt, weight: null }];
}

/** The tempo at which a good part of the track is felt when that is half of what is counted; `null` otherwise. */
function halfTimeFeel({ tempo, irregularities, phrases }: TempoQuestion): Bpm | null {
  const passages = irregularities.filter((i) => i.kind === 'half-time');
  const bars = passages.reduce((sum, i) => sum + Number(i.parameters['endBar'] ?? i.bar) - i.bar + 1, 0);
  const total = phrases.reduce((sum, p) => sum + p.bars, 0);
  const felt = Number(passages[0]?.parameters['feltBpm']);
  return felt > 0 && !isSame(felt, tempo.bpm) && bars >= PART * total ? felt : null;
}

/** Whether one tempo is twice the other. @example isOctave(87, 174) // true */
export function isOctave(a: Bpm, b: Bpm): boolean {
  return isSame(a, 2 * b) || isSame(2 * a, b);
}

function isSame(a: Bpm, b: Bpm): boolean {
  return Math.abs(a / b - 1) <= TOLERANCE;
}

/** A tempo as it is read aloud: whole where it is whole to a hundredth, else with one or two decimals. */
export function tempoNumber(bpm: Bpm, language: Speech = 'en'): string {
  return wordsOf(language).number(bpm, 2);
}

/** A tempo as people say it. @example spokenTempo(174.003) // '174' */
export function spokenTempo(bpm: Bpm, language: Speech = 'en'): string {
  const whole = Math.round(bpm);
  return Math.abs(bpm - whole) < WHOLE ? `${whole}` : wordsOf(language).number(bpm, 1, 'fixed');
}

/** The doubt as a question. @example doubtQuestion([{ bpm: 174, weight: 0.6 }, { bpm: 87, weight: 0.4 }]) // '87 or 174?' */
export function doubtQuestion(readings: readonly [TempoReading, TempoReading], language: Speech = 'en'): string {
  const [low, high] = readings.map((r) => r.bpm).sort((a, b) => a - b);
  return wordsOf(language).either(spokenTempo(low, language), spokenTempo(high, language));
}

/** The tempo of a track, or the two tempos that are in question. @example tempoReading(track) // '87 or 174?' */
export function tempoReading(track: TempoQuestion, language: Speech = 'en'): string {
  const doubt = tempoDoubt(track);
  return doubt === null ? tempoNumber(track.tempo.bpm, language) : doubtQuestion(doubt, language);
}
