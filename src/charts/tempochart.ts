import type { TrackAnalysis } from '../track/index.js';
import type { Bpm } from '../units/index.js';
import { sectionStrip } from './sections.js';
import type { ChartSpec } from './spec.js';
import { table } from './table.js';
import { COLOURS } from './theme.js';
import { frameOf, timeChart, type ChartOptions } from './timechart.js';

/** Least height of the picture in BPM: a constant tempo must not look restless. */
const LEAST_SPAN: Bpm = 2;
/** Bars that are measured together: over fewer, the placing of single beats would show and not the tempo. */
const BARS = 4;

/**
 * The tempo over time, measured over four bars at a time, with the pieces of the grid as lines: steps, drift, and a hand
 * that speeds up into a chorus show here.
 * @public
 */
export function tempoChart(analysis: TrackAnalysis, options: ChartOptions = {}): ChartSpec {
  const frame = frameOf(analysis.source.durationSeconds, options);
  const { tempo } = analysis;
  const measured = measuredTempos(analysis);
  const all = [...measured.map(({ bpm }) => bpm), ...tempo.pieces.map(({ bpm }) => bpm), tempo.bpm].sort(
    (a, b) => a - b,
  );
  // A bar with a beat too few would stretch the picture: the outermost fiftieth may leave it.
  const low = all[Math.floor(all.length * 0.02)];
  const high = all[Math.ceil(all.length * 0.98) - 1];
  const half = Math.max((high - low) * 0.65, LEAST_SPAN / 2);
  const middle = (low + high) / 2;
  const pieces =
    tempo.pieces.length > 0 ? tempo.pieces : [{ start: 0, end: analysis.source.durationSeconds, bpm: tempo.bpm }];
  return timeChart(analysis, frame, {
    title: 'Tempo over time',
    subtitle: `Blue: measured over ${BARS} bars. Black: the tempo counted, ${tempo.bpm.toFixed(2)} BPM on the whole.`,
    description: 'Tempo over time in beats per minute.',
    height: 150,
    y: {
      type: 'quantitative',
      scale: { domain: [middle - half, middle + half * 1.25], nice: false, zero: false },
      axis: { labelExpr: "format(datum.value, '.4~r') + ' BPM'", tickCount: 5, title: null },
    },
    layers: [
      {
        data: table({ t: measured.map(({ time }) => time), bpm: measured.map(({ bpm }) => bpm) }),
        mark: { type: 'line', interpolate: 'step', strokeWidth: 1.5, color: COLOURS.middle, clip: true, aria: false },
        encoding: { y: { field: 'bpm' } },
      },
      {
        data: table({
          t: pieces.map(({ start }) => start),
          tEnd: pieces.map(({ end }) => end),
          bpm: pieces.map(({ bpm }) => bpm),
        }),
        mark: { type: 'rule', stroke: COLOURS.ink, strokeWidth: 2.5, strokeDash: [7, 3], clip: true, aria: false },
        encoding: { y: { field: 'bpm' }, x2: { field: 'tEnd' } },
      },
    ],
    labels: sectionStrip(analysis, frame, middle + half * 1.14),
  });
}

function measuredTempos({ bars }: TrackAnalysis): { time: number; bpm: Bpm }[] {
  return bars.slice(BARS).map((bar, i) => {
    const beats = bars.slice(i, i + BARS).reduce((sum, { beats: n }) => sum + n, 0);
    const from = bars[i].start;
    return { time: (from + bar.start) / 2, bpm: (60 * beats) / (bar.start - from) };
  });
}
