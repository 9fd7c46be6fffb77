import type { TrackAnalysis } from '../track/index.js';
import type { TrackCurves } from './curves.js';
import { pictureUri } from './picture.js';
import type { ChartSpec, SpecPart } from './spec.js';
import { table } from './table.js';
import { COLOURS } from './theme.js';
import { TEMPO_RANGE, type Tempogram } from './tempogram.js';
import { frameOf, timeChart, type ChartOptions, type Frame } from './timechart.js';

const TICKS = [40, 60, 80, 100, 120, 140, 160, 180, 200, 240];
const HEIGHT = 230;

/** How strongly each tempo is heard over time, with the tempo that was decided on as a line. @public */
export function tempogramChart(curves: TrackCurves, analysis: TrackAnalysis, options: ChartOptions = {}): ChartSpec {
  const frame = frameOf(analysis.source.durationSeconds, options);
  const data = table({ t: [frame.from], tEnd: [frame.to], uri: [tempogramPicture(curves.tempogram, frame)] });
  const { bpm, pieces } = analysis.tempo;
  const text = Number(bpm.toFixed(2));
  const line: SpecPart = {
    data: table({
      t: pieces.map(({ start }) => Math.max(start, frame.from)),
      tEnd: pieces.map(({ end }) => Math.min(end, frame.to)),
      bpm: pieces.map(({ bpm }) => bpm),
    }),
    mark: { type: 'rule', stroke: COLOURS.accent, strokeWidth: 1.5, strokeDash: [6, 3], clip: true, aria: false },
    encoding: { y: { field: 'bpm' }, x2: { field: 'tEnd' } },
  };
  return timeChart(analysis, frame, {
    title: 'Tempogram',
    subtitle: `Dark: this tempo is heard then, often with its half or double. Dashed: the tempo counted, ${text} BPM.`,
    description: 'Fourier tempogram: strength of each tempo over time.',
    height: HEIGHT,
    y: Y,
    layers: [pictureLayer(data, TEMPO_RANGE), line],
    matrix: true,
  });
}

/** A picture from the time `t` to the time `tEnd` of its data. @param range lowest and highest value of the y axis */
export function pictureLayer(data: SpecPart, [low, high]: readonly [number, number]): SpecPart {
  return {
    data,
    mark: { type: 'image', aspect: false, smooth: false, clip: true, aria: false },
    encoding: { url: { field: 'uri' }, x2: { field: 'tEnd' }, y: { datum: high }, y2: { datum: low } },
  };
}

function tempogramPicture({ values, rows, tempos, rate, start }: Tempogram, frame: Frame): string {
  const perFrame = Math.ceil((frame.to - frame.from) * rate);
  const columns = Math.max(1, Math.min(frame.width, perFrame));
  const picture = new Float32Array(columns * tempos.length);
  for (let column = 0; column < columns; column++) {
    const time = frame.from + ((column + 0.5) / columns) * (frame.to - frame.from);
    const row = Math.min(rows - 1, Math.max(0, Math.round((time - start) * rate)));
    for (let k = 0; k < tempos.length; k++) picture[k * columns + column] = values[row * tempos.length + k] ** 1.5;
  }
  return pictureUri({ values: picture, columns, rows: tempos.length });
}

const Y: SpecPart = {
  type: 'quantitative',
  scale: { type: 'log', domain: TEMPO_RANGE, nice: false },
  axis: { values: TICKS, labelExpr: "datum.value + ' BPM'", title: null, labelOverlap: false },
};
