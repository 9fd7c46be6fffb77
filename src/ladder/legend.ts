import type { Layer } from '../units/index.js';
import type { Box, LadderGeometry, MeasureText } from './geometry.js';
import { HATCHES, hatch, rectangle, type LayerHatches } from './hatch.js';
import { strokeOf, type LadderPen } from './paint.js';
import { ENGLISH, type LadderWords } from './words.js';

export interface LegendEntry {
  readonly layer: Layer;
  readonly text: string;
  /** The sample of the hatch. */
  readonly swatch: Box;
  readonly textX: number;
  readonly baseline: number;
}

/** As much of a ladder as its legend needs. */
export type LegendSource = Pick<LadderGeometry, 'width' | 'metrics' | 'lanes' | 'unjudged'>;

/** Places the legend of the layers, kick first, in as many lines as the width asks for. */
export function layoutLegend(
  geometry: LegendSource,
  measure: MeasureText,
  words: LadderWords = ENGLISH,
): { readonly entries: readonly LegendEntry[]; readonly height: number } {
  const { text: size, leading, lane } = geometry.metrics;
  const [sample, space] = [size * 1.8, size];
  const entries: LegendEntry[] = [];
  let [x, row] = [0, 0];
  for (const layer of [...geometry.lanes].reverse()) {
    const unjudged = geometry.unjudged.includes(layer) ? ` (${words.notJudged})` : '';
    const text = `${words.letter(layer)} ${words.layer(layer)}${unjudged}`;
    const width = sample + size * 0.4 + measure(text, size, false);
    if (x > 0 && x + width > geometry.width) [x, row] = [0, row + 1];
    const baseline = row * leading + size * 0.85;
    const height = lane * 0.78;
    const swatch = { x, y: baseline - size * 0.34 - height / 2, width: sample, height };
    entries.push({ layer, text, swatch, textX: x + sample + size * 0.4, baseline });
    x += width + space;
  }
  return { entries, height: (row + 1) * leading };
}

/** Draws the legend at the pen's origin. */
export function paintLegend(
  geometry: LegendSource,
  entries: readonly LegendEntry[],
  pen: LadderPen,
  hatches: LayerHatches = HATCHES,
): void {
  const { lane, hairline, text: size } = geometry.metrics;
  for (const { layer, swatch, text, textX, baseline } of entries) {
    for (const figure of hatch(hatches[layer], swatch, lane, swatch.x)) {
      if (figure.stroke === null) pen.path(figure.d, { fill: 'ink' });
      else pen.path(figure.d, strokeOf(figure, figure.stroke));
    }
    const { x, y, width, height } = swatch;
    pen.path(rectangle(x, y - lane * 0.11, width, height + lane * 0.22), { stroke: 'ink', width: hairline });
    pen.text({ text, x: textX, y: baseline, size, bold: false, anchor: 'start', role: 'ink' });
  }
}
