import type { TrackAnalysis } from '../track/index.js';
import { LAYERS, type Fraction, type Layer } from '../units/index.js';
import type { BarCell, LadderMetrics, LaneLetter, Presence, Strip } from './geometry.js';
import type { Row } from './rows.js';

/** Top to bottom as in a score: the floor of the track lies at the bottom. */
export const LANES: readonly Layer[] = [...LAYERS].reverse();

/** Share of a lane that its strip fills. */
const STRIP_SHARE = 0.78;

/** Layers that could not be judged in any bar. */
export function unjudgedLayers(analysis: TrackAnalysis): readonly Layer[] {
  return LAYERS.filter((layer) => analysis.bars.length > 0 && analysis.layers[layer].every((p) => p === null));
}

/** Runs of bars in which a layer shows alike, lane by lane. */
export function rowStrips(
  analysis: TrackAnalysis,
  row: Row,
  cells: readonly BarCell[],
  lane: number,
  presenceFrom: Fraction,
): readonly Strip[] {
  const bars = [...row.hanging, ...row.bars];
  const strips: Strip[] = [];
  LANES.forEach((layer, i) => {
    let open: Strip | null = null;
    cells.forEach((cell, c) => {
      const presence = presenceOf(analysis.layers[layer][bars[c].index] ?? null, presenceFrom);
      if (presence !== null && open?.presence === presence) {
        open = { ...open, width: cell.x + cell.width - open.x, lastBar: cell.bar };
        strips[strips.length - 1] = open;
      } else if (presence === null) {
        open = null;
      } else {
        const y = cell.y + (i + (1 - STRIP_SHARE) / 2) * lane;
        const { x, width, bar } = cell;
        open = { layer, presence, firstBar: bar, lastBar: bar, x, y, width, height: lane * STRIP_SHARE };
        strips.push(open);
      }
    });
  });
  return strips;
}

function presenceOf(value: Fraction | null, from: Fraction): Presence | null {
  if (value === null || value < from / 2) return null;
  return value < from ? 'partly' : 'present';
}

/** Cap height of the type, as a share of its size. */
const CAP_HEIGHT = 0.668;

/** The letters of the layers heard in a row, by turns in two columns so that they keep their size beside narrow lanes. */
export function rowLetters(
  strips: readonly Strip[],
  right: number,
  top: number,
  metrics: LadderMetrics,
  letter: (layer: Layer) => string,
): readonly LaneLetter[] {
  const columnWidth = metrics.text * 0.76;
  return LANES.flatMap((layer, i) => {
    if (!strips.some((s) => s.layer === layer)) return [];
    const x = right - columnWidth * (i % 2 === 0 ? 0.5 : 1.5);
    const y = top + (i + 0.5) * metrics.lane + (CAP_HEIGHT * metrics.text) / 2;
    return [{ layer, letter: letter(layer), x, y }];
  });
}

/** Room that the letters take left of the cells. */
export const lettersWidth = (metrics: LadderMetrics): number => metrics.text * 0.76 * 2 + metrics.lane * 0.8;
