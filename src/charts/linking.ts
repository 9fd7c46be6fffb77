import type { TrackAnalysis } from '../track/index.js';
import type { TimeRange } from './reduce.js';
import type { SpecPart } from './spec.js';
import { labelOf } from './labels.js';

/** Name of the selection by which charts show the same stretch of time. */
export const BRUSH = 'stretch';

/** Only when less than this many seconds are shown is there room for bar lines. */
const ROOM_FOR_BARS = 40;

/** The brushed stretch goes before the domain that a chart has by itself. */
export const linkedDomain: SpecPart = { domainRaw: { expr: `${BRUSH}.t ? ${BRUSH}.t : null` } };

/** Clock times at round steps of what is shown at the moment. */
export function linkedTimeAxis({ from, to }: TimeRange): SpecPart {
  const low = `(${BRUSH}.t ? ${BRUSH}.t[0] : ${from})`;
  const high = `(${BRUSH}.t ? ${BRUSH}.t[1] : ${to})`;
  const span = `(${high} - ${low})`;
  const steps = [600, 300, 120, 60, 30, 15, 10, 5, 2];
  // The largest step that leaves at least six labels.
  const size = `(${steps.map((s) => `${span} >= ${s * 6} ? ${s} : `).join('')}1)`;
  return {
    orient: 'bottom',
    title: 'time (min:s)',
    values: { expr: `sequence(ceil(${low} / ${size}) * ${size}, ${high} + 0.001, ${size})` },
    labelExpr: "floor(datum.value / 60) + ':' + format(floor(datum.value % 60), '02d')",
    labelFlush: false,
    labelOverlap: 'parity',
  };
}

/** All bars, of which as many are labelled as there is room for: every second, fourth, eighth … */
export function linkedBarAxis({ bars }: TrackAnalysis): SpecPart {
  const counted = bars.filter(({ number }) => number >= 1);
  const names = Object.fromEntries(counted.map(({ number, start }) => [String(start), String(number)]));
  return {
    orient: 'top',
    title: 'bar',
    values: counted.map(({ start }) => start),
    labelExpr: labelOf(names),
    labelFlush: false,
    labelOverlap: 'parity',
    labelSeparation: 8,
    ticks: false,
  };
}

/** Bar and beat lines come into sight when there is room for them. */
export const linkedOpacity: SpecPart = {
  condition: {
    test: `datum.level === 'section' || datum.level === 'phrase' || (${BRUSH}.t ? ${BRUSH}.t[1] - ${BRUSH}.t[0] < ${ROOM_FOR_BARS} : false)`,
    value: 1,
  },
  value: 0,
};
