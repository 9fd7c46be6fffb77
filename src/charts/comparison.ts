import type { TrackAnalysis } from '../track/index.js';
import { LAYERS, type BarNumber } from '../units/index.js';
import { VEGA_LITE_SCHEMA, type ChartSpec, type SpecPart } from './spec.js';
import { table } from './table.js';
import { COLOURS, CONFIG, LAYER_COLOURS, SIZES } from './theme.js';

/** How two tracks are laid side by side. @experimental */
export interface ComparisonOptions {
  /** The bars of the first and the second track that fall together; by default the first phrase one of both. */
  readonly bars?: readonly [BarNumber, BarNumber];
  /** Names of the tracks. */
  readonly names?: readonly [string, string];
  /** Width of the plot in pixels, 680 by default. */
  readonly width?: number;
}

const ROW = 13;
const GAP = 4;
/** From this presence on a layer is drawn as playing. */
const PLAYS = 0.5;

/**
 * Two tracks on a common count: the second is laid so that one of its bars falls on one of the first's, bar for bar, as
 * if it were mixed in there at the same tempo. Lines are phrase starts: where they meet, the tracks phrase together.
 * @experimental
 */
export function comparisonChart(
  first: TrackAnalysis,
  second: TrackAnalysis,
  options: ComparisonOptions = {},
): ChartSpec {
  const [a, b] = options.bars ?? [first.phrases[0]?.startBar ?? 1, second.phrases[0]?.startBar ?? 1];
  const names = options.names ?? ['first track', 'second track'];
  const shift = a - b;
  const lanes = [lane(first, 0, LAYERS.length + GAP), lane(second, shift, 0)];
  const rows = 2 * LAYERS.length + GAP;
  const low = Math.min(...lanes.flatMap((l) => l.phrases.map((p) => p.from)));
  const high = Math.max(...lanes.flatMap((l) => l.phrases.map((p) => p.to)));
  const x = (axis: SpecPart | null): SpecPart => ({
    scale: { domain: [low, high], nice: false, zero: false },
    axis,
    type: 'quantitative',
  });
  const y = {
    type: 'quantitative',
    scale: { domain: [-0.2, rows + 2.4], nice: false, zero: false },
    axis: null,
  } as const;
  const cells = lanes.flatMap((l) => l.cells);
  const phrases = lanes.flatMap((l, i) => l.phrases.map((p) => ({ ...p, base: i === 0 ? LAYERS.length + GAP : 0 })));
  const width = options.width ?? SIZES.width;
  const labelled = phrases.filter((p) => ((p.to - p.from) / (high - low)) * width > p.name.length * 6.4 + 4);
  const met = lanes[0].phrases.filter((p) => lanes[1].phrases.some((q) => q.from === p.from)).length;
  const ratio = second.tempo.bpm > 0 ? 100 * (first.tempo.bpm / second.tempo.bpm - 1) : 0;
  const speed = `${ratio < 0 ? '−' : '+'}${Math.abs(ratio).toFixed(1)} %`;
  return {
    $schema: VEGA_LITE_SCHEMA,
    description: 'Layers and phrases of two tracks on a common count of bars.',
    title: {
      text: 'Two tracks on one count',
      subtitle: [
        `${names[1]} laid so that its bar ${b} falls on bar ${a} of ${names[0]}; its speed ${speed}.`,
        `Lines are phrase starts: ${met} of them meet. Strips from the top: ${[...LAYERS].reverse().join(', ')}.`,
      ],
    },
    width,
    height: (rows + 2.6) * ROW,
    layer: [
      {
        data: table({
          from: cells.map((c) => c.from),
          to: cells.map((c) => c.to),
          low: cells.map((c) => c.row),
          high: cells.map((c) => c.row + 0.82),
          layer: cells.map((c) => c.layer),
        }),
        mark: { type: 'rect', aria: false },
        encoding: {
          x: { field: 'from', ...x({ title: `bar of ${names[0]}`, orient: 'bottom', tickMinStep: 4, format: 'd' }) },
          x2: { field: 'to' },
          y: { field: 'low', ...y },
          y2: { field: 'high' },
          color: {
            field: 'layer',
            type: 'nominal',
            legend: null,
            scale: { domain: [...LAYERS], range: LAYERS.map((layer) => LAYER_COLOURS[layer]) },
          },
        },
      },
      {
        data: table({
          from: phrases.map((p) => p.from),
          low: phrases.map((p) => p.base - 0.2),
          high: phrases.map((p) => p.base + LAYERS.length + 1.1),
        }),
        mark: { type: 'rule', stroke: COLOURS.ink, strokeWidth: 1, aria: false },
        encoding: { x: { field: 'from', ...x(null) }, y: { field: 'low', ...y }, y2: { field: 'high' } },
      },
      {
        data: table({
          from: labelled.map((p) => p.from),
          low: labelled.map((p) => p.base + LAYERS.length + 0.55),
          name: labelled.map((p) => p.name),
        }),
        mark: { type: 'text', align: 'left', dx: 3, fontSize: SIZES.label, color: COLOURS.ink, aria: false },
        encoding: { x: { field: 'from', ...x(null) }, y: { field: 'low', ...y }, text: { field: 'name' } },
      },
      {
        data: table({
          from: lanes.map((l) => l.phrases[0]?.from ?? low),
          low: [LAYERS.length + GAP, 0].map((base) => base + LAYERS.length + 1.6),
          name: [...names],
        }),
        mark: {
          type: 'text',
          align: 'left',
          fontSize: SIZES.label,
          fontWeight: 'bold',
          color: COLOURS.ink,
          aria: false,
        },
        encoding: { x: { field: 'from', ...x(null) }, y: { field: 'low', ...y }, text: { field: 'name' } },
      },
    ],
    resolve: { axis: { x: 'independent' } },
    config: CONFIG,
  };
}

interface Lane {
  readonly cells: { from: number; to: number; row: number; layer: string }[];
  readonly phrases: { from: number; to: number; name: string }[];
}

/** Layers and phrases in bars of the common count. @param base lowest row */
function lane(analysis: TrackAnalysis, shift: number, base: number): Lane {
  const cells: Lane['cells'] = [];
  LAYERS.forEach((layer, row) => {
    analysis.bars.forEach((bar, i) => {
      if ((analysis.layers[layer][i] ?? 0) < PLAYS) return;
      const from = bar.number + shift;
      const last = cells[cells.length - 1];
      if (last && last.layer === layer && last.to === from) last.to = from + 1;
      else cells.push({ from, to: from + 1, row: base + row, layer });
    });
  });
  const phrases = analysis.phrases.map((phrase) => {
    const starts = analysis.sections.find((section) => section.startBar === phrase.startBar);
    return { from: phrase.startBar + shift, to: phrase.endBar + 1 + shift, name: starts?.function ?? '' };
  });
  return { cells, phrases };
}
