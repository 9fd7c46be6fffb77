import type { TrackAnalysis } from '../track/index.js';
import type { BarSimilarity, TrackCurves } from './curves.js';
import { pictureUri } from './picture.js';
import type { ChartSpec, SpecPart } from './spec.js';
import { table } from './table.js';
import { pictureLayer } from './tempogramchart.js';
import { COLOURS } from './theme.js';
import { barLines, barTicks } from './ticks.js';
import { frameOf, labelledAxis, timeChart, type ChartOptions, type Frame } from './timechart.js';

/** Most pixels a side of the matrix is given; a screen would not show more. */
const MOST_PIXELS = 400;

/** Every bar compared with every other: blocks are sections, dark stripes beside the diagonal are returns. @public */
export function selfSimilarityChart(
  curves: TrackCurves,
  analysis: TrackAnalysis,
  options: ChartOptions = {},
): ChartSpec {
  const frame = frameOf(analysis.source.durationSeconds, { width: 520, ...options });
  const side = frame.width;
  const data = table({
    t: [frame.from],
    tEnd: [frame.to],
    uri: [similarityPicture(curves.similarity, analysis, frame)],
  });
  const scale: SpecPart = { domain: [frame.from, frame.to], nice: false, zero: false };
  const barNames = barTicks(barLines(analysis, frame), frame, side).map(({ time, label }) => ({
    time,
    label: `bar ${label}`,
  }));
  const bars = labelledAxis('left', null, barNames);
  const y: SpecPart = { type: 'quantitative', scale, axis: bars };
  const starts = analysis.sections.map((s) => s.start).filter((t) => t >= frame.from && t <= frame.to);
  return timeChart(analysis, frame, {
    title: 'Self-similarity',
    subtitle: 'Dark: these two bars sound alike. Squares on the diagonal are sections; squares off it are returns.',
    description: 'Similarity of every bar with every other bar.',
    height: side,
    y,
    layers: [
      pictureLayer(data, [frame.from, frame.to]),
      {
        data: table({ tStart: starts }),
        mark: { type: 'rule', stroke: COLOURS.ink, strokeWidth: 1.2, aria: false },
        encoding: { y: { field: 'tStart' }, x: { value: 0 }, x2: { value: side } },
      },
    ],
    matrix: true,
  });
}

function similarityPicture({ values, bars }: BarSimilarity, analysis: TrackAnalysis, frame: Frame): string {
  const seen = barLines(analysis, frame).length;
  const side = Math.min(MOST_PIXELS, Math.max(1, seen * 2));
  const barAt = Array.from({ length: side }, (_, pixel) => {
    const time = frame.from + ((pixel + 0.5) / side) * (frame.to - frame.from);
    return barIndex(analysis, time);
  });
  const picture = new Float32Array(side * side);
  for (let row = 0; row < side; row++) {
    for (let column = 0; column < side; column++) {
      const [i, j] = [barAt[row], barAt[column]];
      picture[row * side + column] = i < 0 || j < 0 ? 0 : values[i * bars + j];
    }
  }
  return pictureUri({ values: picture, columns: side, rows: side });
}

/** Index of the bar that sounds at a time; −1 before the first and after the last. */
function barIndex({ bars, phrases }: TrackAnalysis, time: number): number {
  const end = phrases[phrases.length - 1]?.end ?? Infinity;
  if (bars.length === 0 || time < bars[0].start || time >= end) return -1;
  let low = 0;
  let high = bars.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (bars[middle].start <= time) low = middle;
    else high = middle - 1;
  }
  return low;
}
