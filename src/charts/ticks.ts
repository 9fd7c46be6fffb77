import type { TrackAnalysis } from '../track/index.js';
import { clock, type BarNumber, type Seconds } from '../units/index.js';
import type { TimeRange } from './reduce.js';

/** Steps between time ticks, in seconds. */
const TIME_STEPS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 60, 120, 300, 600];

/** Least distance of two time labels ("12:30" at 11 px is 30 px wide) and of two bar labels ("128" is 19 px). */
const TIME_GAP = 48;
const BAR_GAP = 30;

/** A finer level of bar labels is only shown when nearly all of it fits, or the gaps would look like meaning. */
const LEVEL_FITS = 0.95;

export interface Tick {
  readonly time: Seconds;
  readonly label: string;
}

/** Round clock times across a range. @param width of the range in pixels */
export function timeTicks({ from, to }: TimeRange, width: number): Tick[] {
  const span = to - from;
  const step = TIME_STEPS.find((s) => (s / span) * width >= TIME_GAP) ?? TIME_STEPS[TIME_STEPS.length - 1];
  const decimals = step < 1 ? 1 : 0;
  const ticks: Tick[] = [];
  // Adding 0 turns the −0 that rounding up can give into 0.
  for (let i = Math.ceil(from / step - 1e-9) + 0; i * step <= to + 1e-9; i++) {
    const time = Math.round(i * step * 10) / 10;
    ticks.push({ time, label: clock(time, decimals) });
  }
  return ticks;
}

/** How strongly a place of the grid is drawn. */
export type GridLevel = 'section' | 'phrase' | 'group' | 'bar';

/** A bar line and the highest level that starts on it. */
export interface BarLine {
  readonly time: Seconds;
  readonly bar: BarNumber;
  readonly level: GridLevel;
}

/** The bar lines of an analysis in a range of time. */
export function barLines(analysis: TrackAnalysis, { from, to }: TimeRange): BarLine[] {
  const sections = new Set(analysis.sections.map((s) => s.startBar));
  const phrases = new Set(analysis.phrases.map((p) => p.startBar));
  const level = (number: BarNumber, groupBar: number): GridLevel =>
    sections.has(number) ? 'section' : phrases.has(number) ? 'phrase' : groupBar === 1 ? 'group' : 'bar';
  return analysis.bars
    .filter((bar) => bar.start >= from - 1e-6 && bar.start <= to + 1e-6)
    .map((bar) => ({ time: bar.start, bar: bar.number, level: level(bar.number, bar.groupBar) }));
}

/** The bar numbers that fit above a chart: sections first, then phrases, groups and bars as room allows. */
export function barTicks(lines: readonly BarLine[], { from, to }: TimeRange, width: number): Tick[] {
  const perSecond = width / (to - from);
  const placed: BarLine[] = [];
  const fits = (line: BarLine) => placed.every((p) => Math.abs(p.time - line.time) * perSecond >= BAR_GAP);
  for (const level of ['section', 'phrase', 'group', 'bar'] as const) {
    const candidates = lines.filter((line) => line.level === level);
    const before = placed.length;
    for (const line of candidates) if (fits(line)) placed.push(line);
    const share = candidates.length === 0 ? 1 : (placed.length - before) / candidates.length;
    if (share >= LEVEL_FITS || level === 'section') continue;
    if (level !== 'phrase') placed.length = before;
    break;
  }
  return placed.sort((a, b) => a.time - b.time).map((line) => ({ time: line.time, label: String(line.bar) }));
}
