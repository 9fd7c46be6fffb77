import type { TrackAnalysis } from '../track/index.js';
import type { Seconds } from '../units/index.js';
import type { TimeRange } from './reduce.js';
import { VEGA_LITE_SCHEMA, type ChartSpec, type Json, type SpecPart } from './spec.js';
import { table } from './table.js';
import { COLOURS, CONFIG, SIZES } from './theme.js';
import { linkedBarAxis, linkedDomain, linkedOpacity, linkedTimeAxis } from './linking.js';
import { barLines, barTicks, timeTicks, type BarLine, type Tick } from './ticks.js';
import { labelOf } from './labels.js';

/** What every chart takes. @public */
export interface ChartOptions {
  /** First and last moment shown; by default the whole track. */
  readonly from?: Seconds;
  readonly to?: Seconds;
  /** Width of the plot in pixels, 680 by default. */
  readonly width?: number;
  /** Follows the stretch of time that is brushed in the chart beside it; see linkedCharts. */
  readonly linked?: boolean;
}

/** The stretch of time and the pixels that a chart is drawn for. */
export interface Frame extends TimeRange {
  readonly width: number;
  readonly linked: boolean;
}

/** The frame that some options ask for, clamped to the track. */
export function frameOf(duration: Seconds, options: ChartOptions = {}): Frame {
  const from = Math.min(Math.max(options.from ?? 0, 0), Math.max(duration - 0.1, 0));
  const to = Math.min(Math.max(options.to ?? duration, from + 0.1), Math.max(duration, from + 0.1));
  return { from, to, width: options.width ?? SIZES.width, linked: options.linked === true };
}

/** A linked chart can be zoomed into: it carries this many times the points. */
const LINKED_DETAIL = 2;

/** Points of a curve that are drawn: three for five pixels look the same as five and take half the room. */
export function pointsIn({ width, linked }: Frame): number {
  return Math.round(width * 0.6 * (linked ? LINKED_DETAIL : 1));
}

/** The parts of a chart over time. */
export interface TimeChartParts {
  readonly title: string;
  readonly subtitle: string;
  /** One sentence for those who cannot see the chart. */
  readonly description: string;
  readonly height: number;
  /** Inline data that layers without data of their own draw. */
  readonly data?: SpecPart;
  /** The y encoding of the content; shared by all layers. */
  readonly y: SpecPart;
  /** Content, drawn over each other; times are in the field `t`. */
  readonly layers: readonly SpecPart[];
  /** What stands over everything, grid included. */
  readonly labels?: readonly SpecPart[];
  /** A matrix fills the whole plot: the grid lies over it. */
  readonly matrix?: boolean;
}

/** Spaces for beat lines, in pixels: closer ones would be a grey wash. */
const LEAST_BEAT_PIXELS = 10;
const LEAST_BAR_PIXELS = 12;

/** A chart over time: seconds below, bar numbers above, lines where phrases and sections start. */
export function timeChart(analysis: TrackAnalysis, frame: Frame, parts: TimeChartParts): ChartSpec {
  const lines = barLines(analysis, frame);
  // Close bar lines are thin background; a few phrase lines must not drown in filled areas.
  const onTop = parts.matrix === true || !showsBars(lines, frame);
  const x = (axis: Json): SpecPart => ({
    field: 't',
    type: 'quantitative',
    scale: { domain: [frame.from, frame.to], nice: false, zero: false, ...(frame.linked ? linkedDomain : {}) },
    axis,
  });
  const below = frame.linked
    ? linkedTimeAxis(frame)
    : labelledAxis('bottom', 'time (min:s)', timeTicks(frame, frame.width));
  const above = frame.linked
    ? linkedBarAxis(analysis)
    : labelledAxis('top', 'bar', barTicks(lines, frame, frame.width));
  const grid: SpecPart = {
    data: gridTable(analysis, frame),
    mark: { type: 'rule', clip: true, aria: false },
    encoding: { x: x(above), ...gridLook(onTop), ...(frame.linked ? { opacity: linkedOpacity } : {}) },
  };
  const placed = (layer: SpecPart, i: number): SpecPart => {
    const encoding = (layer['encoding'] ?? {}) as SpecPart;
    const own = (encoding['x'] ?? {}) as SpecPart;
    const withX = 'value' in own ? own : { ...x(i === 0 ? below : null), ...own };
    const ownY = (encoding['y'] ?? {}) as SpecPart;
    const withY = 'value' in ownY ? ownY : { ...parts.y, ...ownY };
    return { ...layer, encoding: { ...encoding, x: withX, y: withY } };
  };
  const content = parts.layers.map(placed);
  const labels = (parts.labels ?? []).map((layer) => placed(layer, -1));
  return {
    $schema: VEGA_LITE_SCHEMA,
    description: parts.description,
    title: { text: parts.title, subtitle: parts.subtitle },
    width: frame.width,
    height: parts.height,
    ...(parts.data ? { data: parts.data } : {}),
    layer: onTop ? [...content, grid, ...labels] : [grid, ...content, ...labels],
    resolve: { axis: { x: 'independent' } },
    config: CONFIG,
  };
}

/** An axis with these labels and no others. */
export function labelledAxis(orient: string, title: string | null, ticks: readonly Tick[]): SpecPart {
  const labels = Object.fromEntries(ticks.map(({ time, label }) => [String(time), label]));
  return {
    orient,
    title,
    values: ticks.map(({ time }) => time),
    labelExpr: labelOf(labels),
    labelOverlap: false,
    labelFlush: false,
  };
}

function gridTable(analysis: TrackAnalysis, frame: Frame): SpecPart {
  const lines = barLines(analysis, frame);
  const everyBar = frame.linked || showsBars(lines, frame);
  const shown = lines.filter(({ level }) => everyBar || level === 'section' || level === 'phrase');
  const times = shown.map(({ time }) => time);
  const levels: string[] = shown.map(({ level }) => (level === 'group' ? 'bar' : level));
  const beats = analysis.beats.filter((t) => t >= frame.from && t <= frame.to);
  if (beats.length > 1 && frame.width / beats.length >= LEAST_BEAT_PIXELS) {
    for (const beat of beats) {
      if (lines.some(({ time }) => Math.abs(time - beat) < 1e-3)) continue;
      times.push(beat);
      levels.push('beat');
    }
  }
  return table({ t: times, level: levels });
}

function showsBars(lines: readonly BarLine[], { width }: Frame): boolean {
  return width / Math.max(lines.length, 1) >= LEAST_BAR_PIXELS;
}

const LEVELS = ['section', 'phrase', 'bar', 'beat'];

function gridLook(onTop: boolean): SpecPart {
  const scale = (range: readonly Json[]): SpecPart => ({
    field: 'level',
    type: 'ordinal',
    sort: LEVELS,
    legend: null,
    scale: { domain: LEVELS, range },
  });
  const colours = onTop
    ? [COLOURS.ink, COLOURS.quiet, COLOURS.line, COLOURS.line]
    : [COLOURS.ink, COLOURS.quiet, COLOURS.quiet, COLOURS.beat];
  return {
    stroke: scale(colours),
    strokeWidth: scale([1.4, 0.8, 0.8, 0.7]),
    strokeDash: scale([
      [1, 0],
      [3, 3],
      [1, 0],
      [2, 2],
    ]),
  };
}
