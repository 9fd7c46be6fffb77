import type { TrackAnalysis } from '../track/index.js';
import type { BarCell, OpenCell } from './geometry.js';
import type { PatternBreaks } from './pattern.js';
import type { Row, RowBar } from './rows.js';

/** Where the row of a rung lies and how wide a bar is. */
export interface RowPlace {
  readonly left: number;
  readonly top: number;
  readonly height: number;
  readonly barWidth: number;
}

/** The cells of a row, edge to edge from the left edge; partial bars before bar 1 end at the edge. */
export function rowCells(
  analysis: TrackAnalysis,
  row: Row,
  breaks: PatternBreaks,
  place: RowPlace,
): readonly BarCell[] {
  const usual = analysis.metre.beatsPerBar;
  const widthOf = (b: RowBar) => (b.bar.beats / usual) * place.barWidth;
  const cells: BarCell[] = [];
  let x = place.left - row.hanging.reduce((sum, b) => sum + widthOf(b), 0);
  const add = (b: RowBar, hanging: boolean) => {
    const width = widthOf(b);
    // A track may stop inside its last bar; that is no irregularity.
    const stopped = b.index === analysis.bars.length - 1 && b.bar.beats < usual;
    const oddBeats = b.bar.beats !== usual && !stopped;
    const ticks = oddBeats
      ? Array.from({ length: b.bar.beats - 1 }, (_, i) => x + ((i + 1) * width) / b.bar.beats)
      : [];
    cells.push({
      x,
      y: place.top,
      width,
      height: place.height,
      bar: b.bar.number,
      start: b.bar.start,
      end: b.end,
      beats: b.bar.beats,
      oddBeats,
      beatTicks: ticks,
      groupBar: b.bar.groupBar,
      surplus: breaks.surplus.has(b.bar.number),
      beatless: breaks.beatless.has(b.bar.number),
      hanging,
    });
    x += width;
  };
  for (const b of row.hanging) add(b, true);
  for (const b of row.bars) add(b, false);
  return cells;
}

/** The bars that a phrase is short of, after its last one. */
export function openCells(row: Row, end: number, place: RowPlace): readonly OpenCell[] {
  const { barWidth: width, top: y, height } = place;
  const length = row.bars.at(-1)?.bar.phraseBar ?? row.bars.length;
  return Array.from({ length: row.missing }, (_, i) => ({
    x: end + i * width,
    y,
    width,
    height,
    phraseBar: length + i + 1,
  }));
}

/** Width of the whole bars of a row and of the missing ones, in bars of the usual number of beats. */
export function rowBars(row: Row, beatsPerBar: number): { readonly whole: number; readonly hanging: number } {
  const sum = (bars: readonly RowBar[]) => bars.reduce((total, b) => total + b.bar.beats / beatsPerBar, 0);
  return { whole: sum(row.bars) + row.missing, hanging: sum(row.hanging) };
}
