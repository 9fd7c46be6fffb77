import type { TrackAnalysis } from '../track/index.js';
import type { TrackCurves } from './curves.js';
import { reduceMaximum } from './reduce.js';
import { sectionStrip } from './sections.js';
import type { ChartSpec, SpecPart } from './spec.js';
import { table } from './table.js';
import { COLOURS } from './theme.js';
import { frameOf, pointsIn, timeChart, type ChartOptions } from './timechart.js';

/** The level mirrored about its axis: bass inside, everything outside, with the sections named on top. @public */
export function waveformChart(curves: TrackCurves, analysis: TrackAnalysis, options: ChartOptions = {}): ChartSpec {
  const frame = frameOf(analysis.source.durationSeconds, options);
  const reduced = [0, 1, 2].map((column) => reduceMaximum(curves.levels, column, frame, pointsIn(frame)));
  const data = table({
    t: reduced[0].times,
    low: reduced[0].values,
    mid: reduced[1].values,
    all: reduced[2].values,
  });
  const area = (field: string, colour: string, note: string): SpecPart => ({
    transform: [{ calculate: `-datum.${field}`, as: 'below' }],
    mark: { type: 'area', color: colour, clip: true, description: note },
    encoding: { y: { field }, y2: { field: 'below' } },
  });
  return timeChart(analysis, frame, {
    title: 'Level over time',
    subtitle: 'Dark: below 150 Hz (kick and bass). Middle: below 2.5 kHz. Pale: everything.',
    description: 'Level over time in three nested parts, with bar numbers, phrase and section starts.',
    height: 170,
    data,
    y: Y,
    layers: [
      area('all', COLOURS.pale, 'all frequencies'),
      area('mid', COLOURS.middle, 'below 2.5 kHz'),
      area('low', COLOURS.deep, 'below 150 Hz'),
    ],
    labels: sectionStrip(analysis, frame, 1.2),
  });
}

const NO_LABELS: SpecPart = { labels: false, ticks: false, domain: false, title: null };

const Y: SpecPart = { type: 'quantitative', scale: { domain: [-1.05, 1.35], nice: false }, axis: NO_LABELS };
