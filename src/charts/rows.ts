import type { SpecPart } from './spec.js';
import { labelOf } from './labels.js';

/** How much of a row its curve may fill. */
const FILL = 0.9;

/** The y encoding of named rows under each other, the first on top, each one unit high. */
export function rowAxis(names: readonly string[]): SpecPart {
  const labels = Object.fromEntries(names.map((name, i) => [String(names.length - i - 0.5), name]));
  return {
    type: 'quantitative',
    scale: { domain: [0, names.length], nice: false, zero: false },
    axis: {
      values: names.map((_, i) => names.length - i - 0.5),
      labelExpr: labelOf(labels),
      labelOverlap: false,
      ticks: false,
      domain: false,
      title: null,
    },
  };
}

/** The layer that draws one column of a table as the area of one row, from the chart's data. @param values of the column lie in 0…1 */
export function rowArea(field: string, row: number, rows: number, colour: string): SpecPart {
  const base = rows - row - 1;
  return {
    transform: [
      { calculate: `${base} + ${FILL} * datum.${field}`, as: 'top' },
      { calculate: String(base), as: 'base' },
    ],
    mark: { type: 'area', color: colour, clip: true, aria: false },
    encoding: { y: { field: 'top' }, y2: { field: 'base' } },
  };
}
