import { createHash } from 'node:crypto';
import { compactSvg } from './compact.js';
import { textMeasure, type TextMeasure } from './measure.js';
import { loadPeer } from './peers.js';
import { VEGA_LITE_SCHEMA, type ChartSpec } from './spec.js';

interface TextItem {
  readonly fontSize?: number;
  readonly fontWeight?: string | number;
  readonly text?: unknown;
}
interface Vega {
  readonly textMetrics: { width: (item: TextItem, text: unknown) => number };
  parse(spec: unknown): unknown;
  View: new (runtime: unknown, options: { renderer: 'none' }) => { toSVG(): Promise<string>; finalize(): void };
}
interface VegaLite {
  compile(spec: unknown, options?: { logger?: ChartLogger }): { spec: unknown };
}

/** What the vega-lite compiler says goes here; every method returns the logger itself. */
export interface ChartLogger {
  level(value?: number): ChartLogger | number;
  error(...messages: readonly unknown[]): ChartLogger;
  warn(...messages: readonly unknown[]): ChartLogger;
  info(...messages: readonly unknown[]): ChartLogger;
  debug(...messages: readonly unknown[]): ChartLogger;
}

/** A logger that keeps warnings and errors in a list and prints nothing. */
export function collectingLogger(into: string[]): ChartLogger {
  const keep = (...messages: readonly unknown[]) => {
    into.push(messages.map(String).join(' '));
    return logger;
  };
  const drop = () => logger;
  const logger: ChartLogger = { level: drop, error: keep, warn: keep, info: drop, debug: drop };
  return logger;
}

/**
 * Draws a chart as a self-contained SVG document, 96 pixels to the inch; identical input gives identical output.
 * @public
 * @throws BarwiseError `missing-package` when vega, vega-lite or fontkit is not installed
 */
export async function toSvg(spec: ChartSpec, options: { readonly warnings?: string[] } = {}): Promise<string> {
  const [vega, lite, measure] = await Promise.all([
    loadPeer<Vega>('vega', 'Drawing a chart'),
    loadPeer<VegaLite>('vega-lite', 'Drawing a chart'),
    textMeasure(),
  ]);
  vega.textMetrics.width = (item, text) => itemWidth(measure, item, text);
  const compiled = lite.compile(spec, { logger: collectingLogger(options.warnings ?? []) }).spec;
  const view = new vega.View(vega.parse(compiled), { renderer: 'none' });
  try {
    return ownIdentifiers(compactSvg(await view.toSVG()));
  } finally {
    view.finalize();
  }
}

/**
 * Loads what drawing needs and draws a line once, so that the next chart does not wait for that. Nothing happens where
 * the packages are missing.
 * @experimental
 */
export async function prepareDrawing(): Promise<void> {
  await toSvg(SMALLEST).catch(() => undefined);
}

const SMALLEST: ChartSpec = {
  $schema: VEGA_LITE_SCHEMA,
  description: 'A line.',
  data: { values: [{ x: 0 }, { x: 1 }] },
  layer: [{ mark: 'area' }, { mark: 'rule' }, { mark: { type: 'text', text: '1' } }],
  encoding: { x: { field: 'x', type: 'quantitative', axis: { title: 'x' } } },
};

function itemWidth(measure: TextMeasure, item: TextItem, text: unknown): number {
  const line = typeof text === 'string' || typeof text === 'number' ? String(text) : '';
  const weight = item.fontWeight;
  return measure(line, item.fontSize ?? 11, weight === 'bold' || Number(weight) >= 600);
}

/**
 * Several drawings stand on one page, and vega counts its identifiers on from drawing to drawing: here they are numbered
 * anew, behind a prefix made from the drawing itself.
 */
function ownIdentifiers(svg: string): string {
  const ids = [...svg.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
  const rename = (text: string, name: (id: string) => string) =>
    text.replace(/( id="|url\(#)([^")]+)/g, (whole, before: string, id: string) => {
      return ids.includes(id) ? before + name(id) : whole;
    });
  const numbered = rename(svg, (id) => String(ids.indexOf(id)));
  const prefix = `c${createHash('sha256').update(numbered).digest('hex').slice(0, 8)}`;
  return rename(svg, (id) => `${prefix}-${ids.indexOf(id)}`);
}
