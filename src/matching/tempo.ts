import { BarwiseError, type Bpm, type Fraction } from '../units/index.js';

/** Which record changes its tempo. @public */
export const TEMPO_CHANGES = ['b', 'a', 'both'] as const;
/** One of `TEMPO_CHANGES`. @public */
export type TempoChange = (typeof TEMPO_CHANGES)[number];

/** Two tempos on one count. @public */
export interface TempoMatch {
  /** Tempo of A's beats in the overlap. */
  readonly bpm: Bpm;
  /** Beats of B on one beat of A: 1, 2 or 0.5. */
  readonly ratio: number;
  /** Speeds of the records: 1.02 plays 2 % faster. */
  readonly rateA: number;
  readonly rateB: number;
  /** The larger of the two changes, as a share. */
  readonly change: Fraction;
  /** Whether both stay within the fader's range. */
  readonly fits: boolean;
}

/** Range of the tempo fader either way, as a share; common practice, no source. @public */
export const FADER_RANGE: Fraction = 0.08;

/** Half and double tempo cost so much beside a straight match: they are taken only where they save more change. */
const RATIO_COST = 0.04;

/**
 * The nearest way to bring two tempos together, half and double tempo included.
 * @public
 * @param a tempo of A, over 0
 * @param b tempo of B, over 0
 * @param options `change`: which record changes, `range`: of the fader, as a share (0.08 is ±8 %)
 * @throws BarwiseError `bad-option` for a tempo or range that is not over 0
 * @example matchTempos(126, 124).rateB // 1.0161290322580645
 */
export function matchTempos(
  a: Bpm,
  b: Bpm,
  options: { readonly change?: TempoChange; readonly range?: Fraction } = {},
): TempoMatch {
  const { change = 'b', range = FADER_RANGE } = options;
  if (!(a > 0 && b > 0)) throw new BarwiseError('bad-option', `Tempos of ${a} and ${b} BPM cannot be matched.`);
  if (!(range > 0 && range < 1))
    throw new BarwiseError('bad-option', `A fader range of ±${range * 100} % is none: give 1 to 99 %.`);
  const ways = [1, 2, 0.5].map((ratio) => {
    const wanted = (a * ratio) / b; // speed of B that meets A as it is
    const share = { b: 1, a: 0, both: 0.5 }[change];
    const rateB = wanted ** share;
    const rateA = rateB / wanted;
    const largest = Math.max(Math.abs(rateA - 1), Math.abs(rateB - 1));
    return { bpm: a * rateA, ratio, rateA, rateB, change: largest, fits: largest <= range + 1e-9 };
  });
  const cost = (way: TempoMatch) => way.change + (way.ratio === 1 ? 0 : RATIO_COST);
  const fitting = ways.filter((way) => way.fits);
  return (fitting.length > 0 ? fitting : ways).reduce((best, way) => (cost(way) < cost(best) ? way : best));
}

/**
 * Semitones by which a speed moves the pitch: 12·log2(r).
 * @public
 * @example semitonesOf(2) // 12
 */
export function semitonesOf(rate: number): number {
  return 12 * Math.log2(rate);
}
