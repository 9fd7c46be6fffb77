import type { Bpm, Fraction, Hertz } from '../units/index.js';
import { autocorrelations, atLag } from './autocorrelation.js';
import type { GridConstraints } from './grid.js';
import type { OnsetCurves } from './onsets.js';
import { refineTempo, type TempoFit } from './refine-tempo.js';

/** Tempos that are weighed when nobody says otherwise (BPM): common practice, no source. */
export const TEMPO_RANGE: readonly [Bpm, Bpm] = [50, 230];

/** Readings beside each autocorrelation peak. */
const MULTIPLES = [1, 1 / 2, 2 / 3, 3 / 4, 4 / 3, 3 / 2, 2];

const PEAKS = 7;
const MOST = 14;

/**
 * A tempo with less than this share of the strongest one's pulse is none. Right tempos had 0.3 of it or more on all of 245
 * tracks of others; two candidates in three have under 0.15, and one of those was once chosen.
 */
const LEAST_STRENGTH: Fraction = 0.15;

/** Tempos closer than this share are one candidate. */
const SAME = 0.012;

/** Longest lag of the autocorrelations (s): eight beats at 50 BPM. */
const LONGEST_LAG = 9.7;

/** Candidate tempos with the autocorrelations they were found in. */
export interface TempoCandidates {
  readonly fits: readonly TempoFit[];
  /** Autocorrelation of all onsets, and of the lowest band. */
  readonly acf: Float64Array;
  readonly acfLow: Float64Array;
}

/**
 * Peaks of the autocorrelation and their multiples within the tempo range, refined on the whole track.
 * @param leastStrength what is learned from may be any candidate, 0: a wrong one tells as much as a right one
 */
export function tempoCandidates(
  onsets: OnsetCurves,
  constraints: GridConstraints,
  leastStrength = LEAST_STRENGTH,
): TempoCandidates {
  const maxLag = Math.round(LONGEST_LAG * onsets.rate);
  const [acf, acfLow] = autocorrelations([onsets.all, onsets.bands[0]], maxLag);
  const [low, high] = constraints.tempoRange ?? TEMPO_RANGE;
  const inRange = (f: Hertz) => 60 * f >= low * 0.995 && 60 * f <= high * 1.005;
  const salience = (f: Hertz) => {
    const lag = onsets.rate / f;
    return [1, 2, 4].reduce((s, k) => s + atLag(acf, k * lag) + 0.5 * atLag(acfLow, k * lag), 0);
  };
  const seeds: Hertz[] = [];
  const add = (f: Hertz) => {
    if (inRange(f) && !seeds.some((g) => Math.abs(f / g - 1) < SAME)) seeds.push(f);
  };
  const peaks = [...lagPeaks(acf, onsets.rate), ...lagPeaks(acfLow, onsets.rate)];
  for (const m of MULTIPLES) for (const f of peaks) add(f * m);
  const told = constraints.tempo === undefined ? null : constraints.tempo / 60;
  const isTold = (f: Hertz) => told !== null && Math.abs(f / told - 1) < SAME;
  if (told !== null) add(told);
  seeds.sort((a, b) => Number(isTold(b)) - Number(isTold(a)) || salience(b) - salience(a));
  const fits: TempoFit[] = [];
  for (const seed of seeds) {
    if (fits.length >= MOST) break;
    const fit = refineTempo(onsets, seed);
    if (inRange(fit.frequency) && !fits.some((g) => Math.abs(fit.frequency / g.frequency - 1) < SAME / 2))
      fits.push(fit);
  }
  const least = leastStrength * Math.max(...fits.map(({ strength }) => strength));
  return { fits: fits.filter((fit) => fit.strength >= least || isTold(fit.frequency)), acf, acfLow };
}

/** Frequencies of the highest local maxima between 0.26 s and 1.5 s of lag, each sharpened at four times the lag. */
function lagPeaks(acf: Float64Array, rate: Hertz): Hertz[] {
  const peaks: { lag: number; height: number }[] = [];
  for (let i = Math.round(0.22 * rate); i <= 1.5 * rate; i++) {
    if (acf[i] > acf[i - 1] && acf[i] >= acf[i + 1]) peaks.push({ lag: vertex(acf, i), height: acf[i] });
  }
  peaks.sort((a, b) => b.height - a.height);
  return peaks.slice(0, PEAKS).map(({ lag }) => {
    for (const k of [2, 4]) {
      const centre = Math.round(k * lag);
      let best = centre;
      for (let i = centre - 2 * k; i <= centre + 2 * k; i++) if ((acf[i] ?? -1) > (acf[best] ?? -1)) best = i;
      if (best > 0 && best + 1 < acf.length && Math.abs(best - centre) < 2 * k) lag = vertex(acf, best) / k;
    }
    return rate / lag;
  });
}

function vertex(acf: Float64Array, i: number): number {
  const [a, b, c] = [acf[i - 1], acf[i], acf[i + 1]];
  const bend = a - 2 * b + c;
  return bend < 0 ? i + Math.max(-0.5, Math.min(0.5, (a - c) / (2 * bend))) : i;
}
