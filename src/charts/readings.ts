import type { OneReading } from '../track/index.js';
import { VEGA_LITE_SCHEMA, type ChartSpec, type SpecPart } from './spec.js';
import { table } from './table.js';
import { COLOURS, CONFIG, SIZES } from './theme.js';

/** What is shown of each reading, from left to right. */
const PANELS = [
  { of: 'changes', title: ['layer changes', 'on phrase one'], unit: '%' },
  { of: 'sound', title: ['sound changes', 'there by'], unit: 'dB' },
  { of: 'harmony', title: ['harmony changes', 'on the one'], unit: '%' },
  { of: 'low', title: ['kick and bass strike', 'harder on the one by'], unit: 'dB' },
  { of: 'weight', title: ['share of', 'all evidence'], unit: '%' },
] as const;

const PANEL = { width: 92, row: 22 };
/** Room for a figure beside the longest bar, as a share of it. */
const ROOM = 1.65;

/**
 * What a reading of the one is called.
 * @public
 * @example readingName(reading) // '1 beat later'
 */
export function readingName({ shiftBeats, shiftBars }: Pick<OneReading, 'shiftBeats' | 'shiftBars'>): string {
  if (shiftBeats === 0) return 'as counted';
  const [n, unit] = shiftBars === null ? [shiftBeats, 'beat'] : [shiftBars, 'bar'];
  return `${n} ${unit}${n === 1 ? '' : 's'} later`;
}

/**
 * The evidence for each reading of the one, side by side: a row a reading, a column a kind of evidence. The reading of the
 * analysis is dark.
 * @public
 * @param readings `byBeat` or `byBar` of `compareOnes`
 */
export function readingsChart(readings: readonly OneReading[], title = 'What if the one were later?'): ChartSpec {
  const names = readings.map(readingName);
  const values: Record<(typeof PANELS)[number]['of'], number[]> = {
    changes: readings.map((r) => 100 * r.evidence.changesShare),
    sound: readings.map((r) => r.evidence.soundDecibels),
    harmony: readings.map((r) => 100 * r.evidence.harmonyShare),
    low: readings.map((r) => r.evidence.lowDecibels),
    weight: readings.map((r) => 100 * r.weight),
  };
  return {
    $schema: VEGA_LITE_SCHEMA,
    description: describe(readings),
    title: { text: title, subtitle: 'Longer bars speak for a reading. Dark: as the track is counted.' },
    data: table({ reading: names, chosen: readings.map((r) => (r.shiftBeats === 0 ? 1 : 0)), ...values }),
    spacing: 14,
    hconcat: PANELS.map((panel, i) => panelOf(panel, values[panel.of], names, i === 0)),
    config: CONFIG,
  };
}

function panelOf(
  { of, title, unit }: (typeof PANELS)[number],
  values: readonly number[],
  names: readonly string[],
  first: boolean,
): SpecPart {
  const [low, high] = [Math.min(0, ...values), Math.max(0, ...values)];
  const span = high - low || 1;
  const x: SpecPart = {
    field: of,
    type: 'quantitative',
    scale: { domain: [low, low + span * ROOM], nice: false, zero: true },
    axis: null,
  };
  const y: SpecPart = {
    field: 'reading',
    type: 'nominal',
    sort: [...names],
    axis: first ? { title: null, ticks: false, domain: false, labelPadding: 6 } : null,
  };
  const figure =
    unit === '%' ? `format(datum.${of}, '.0f') + ' %'` : `replace(format(datum.${of}, '+.1f'), '-', '−') + ' dB'`;
  return {
    width: PANEL.width,
    height: PANEL.row * names.length,
    title: {
      text: [...title],
      fontSize: SIZES.label,
      fontWeight: 'normal',
      color: COLOURS.quiet,
      anchor: 'start',
      offset: 4,
    },
    view: { stroke: null },
    encoding: { y },
    layer: [
      {
        mark: { type: 'bar', height: 13 },
        encoding: {
          x,
          color: {
            condition: { test: 'datum.chosen == 1', value: COLOURS.deep },
            value: COLOURS.pale,
          },
        },
      },
      {
        transform: [
          { calculate: figure, as: 'figure' },
          { calculate: `max(datum.${of}, 0)`, as: 'end' },
        ],
        mark: { type: 'text', align: 'left', dx: 4, color: COLOURS.ink, fontSize: SIZES.label },
        encoding: { x: { ...x, field: 'end' }, text: { field: 'figure' } },
      },
    ],
  };
}

function describe(readings: readonly OneReading[]): string {
  const said = readings.map(
    (r) =>
      `${readingName(r)}: ${Math.round(100 * r.evidence.changesShare)} % of the layer changes on phrase one, ` +
      `${Math.round(100 * r.weight)} % of all evidence`,
  );
  return `The evidence for each reading of the one. ${said.join('; ')}.`;
}
