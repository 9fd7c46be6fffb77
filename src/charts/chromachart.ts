import type { FrontEnd } from '../signal/index.js';
import type { TrackAnalysis } from '../track/index.js';
import { keyName } from '../wording/index.js';
import { pictureUri } from './picture.js';
import type { ChartSpec, SpecPart } from './spec.js';
import { table } from './table.js';
import { pictureLayer } from './tempogramchart.js';
import { frameOf, timeChart, type ChartOptions, type Frame } from './timechart.js';
import { labelOf } from './labels.js';

const PITCHES = ['C', 'C♯', 'D', 'E♭', 'E', 'F', 'F♯', 'G', 'A♭', 'A', 'B♭', 'B'];
const HEIGHT = 200;

/**
 * How strongly each of the twelve notes sounds in each bar, whatever its octave: rows that stay dark are the key, a
 * change of pattern is a change of chord. Each bar is scaled to its own strongest note.
 * @public
 */
export function chromaChart(
  { chroma }: Pick<FrontEnd, 'chroma'>,
  analysis: TrackAnalysis,
  options: ChartOptions = {},
): ChartSpec {
  const frame = frameOf(analysis.source.durationSeconds, options);
  const data = table({ t: [frame.from], tEnd: [frame.to], uri: [chromaPicture(chroma, analysis, frame)] });
  const { tonic, mode } = analysis.key;
  const key = tonic !== null && mode !== null ? ` The key found: ${keyName(tonic, mode)}.` : '';
  return timeChart(analysis, frame, {
    title: 'Notes (chroma)',
    subtitle: `Dark: this note is strong in that bar, in whatever octave.${key}`,
    description: 'Chroma: strength of the twelve pitch classes in each bar.',
    height: HEIGHT,
    y: Y,
    layers: [pictureLayer(data, [0, PITCHES.length])],
    matrix: true,
  });
}

const labels = Object.fromEntries(PITCHES.map((name, i) => [String(i + 0.5), name]));
const Y: SpecPart = {
  type: 'quantitative',
  scale: { domain: [0, PITCHES.length], nice: false, zero: false },
  axis: {
    values: PITCHES.map((_, i) => i + 0.5),
    labelExpr: labelOf(labels),
    labelOverlap: false,
    ticks: false,
    title: null,
  },
};

/** One column a pixel, each showing the bar it lies in. */
function chromaPicture(
  { values, columns, rows, rate, start }: FrontEnd['chroma'],
  analysis: TrackAnalysis,
  frame: Frame,
): string {
  const width = Math.max(1, frame.width);
  const picture = new Float32Array(width * columns);
  const edges = [...analysis.bars.map((bar) => bar.start), analysis.phrases.at(-1)?.end ?? frame.to];
  let bar = -1;
  let sums = new Float64Array(columns);
  let largest = 0;
  for (let x = 0; x < width; x++) {
    const time = frame.from + ((x + 0.5) / width) * (frame.to - frame.from);
    let next = bar;
    while (next + 1 < edges.length && edges[next + 1] <= time) next++;
    if (next !== bar || x === 0) {
      bar = next;
      sums = new Float64Array(columns);
      const from = bar < 0 ? 0 : edges[bar];
      const to = edges[bar + 1] ?? frame.to;
      const first = Math.max(0, Math.ceil((from - start) * rate));
      const last = Math.min(rows - 1, Math.max(first, Math.floor((to - start) * rate) - 1));
      for (let r = first; r <= last; r++)
        for (let c = 0; c < columns; c++) sums[c] += Math.sqrt(values[r * columns + c]);
      largest = Math.max(...sums);
    }
    for (let c = 0; c < columns; c++)
      picture[c * width + x] = largest > 0 && bar + 1 < edges.length ? (sums[c] / largest) ** 2 : 0;
  }
  return pictureUri({ values: picture, columns: width, rows: columns });
}
