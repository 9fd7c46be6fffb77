import type { Layer } from '../../src/index.js';
import { hatch, type LadderPen } from '../../src/ladder/index.js';
import type { Style } from '../theme/index.js';
import { BARS_IN_ROW, type SharedBar, type SharedCell } from './rows.js';

/** Top of a rung to its floor, as on every ladder. */
const LANES: readonly Layer[] = ['voice', 'harmony', 'percussion', 'bass', 'kick'];
/** Size of the letters beside the lanes: the smallest type on paper. */
const LETTER = 7;
/** Present from here on. */
const THERE = 0.5;

/** Sizes of a row of both ladders, in points. */
export interface RowSizes {
  readonly left: number;
  readonly width: number;
  readonly lane: number;
  readonly text: number;
}

/** Space between the rungs of A and B, and how far the line of a phrase stands out under a rung, in lanes. */
const BETWEEN = 1.4;
const OVER = 0.5;

/** The records that play in a row, A above B. */
function decksOf(row: readonly SharedCell[]) {
  const both = [
    { name: 'A', of: (c: SharedCell) => c.a },
    { name: 'B', of: (c: SharedCell) => c.b },
  ] as const;
  return both.filter(({ of }) => row.some((cell) => of(cell) !== null));
}

/** Height of a row: of as many rungs as records play in it. */
export function rowHeight(row: readonly SharedCell[], { lane, text }: RowSizes): number {
  const rungs = Math.max(decksOf(row).length, 1);
  return rungs * LANES.length * lane + (rungs - 1) * BETWEEN * lane + OVER * lane + text * 3.4;
}

/** Draws a row: what to do on its ones, A's rung, B's rung under it on the same bar lines, and the bar numbers. */
export function drawRow(
  pen: LadderPen,
  row: readonly SharedCell[],
  y: number,
  sizes: RowSizes,
  style: Style,
  actions: (names: SharedCell['actions']) => string,
): void {
  const { left, width, lane, text } = sizes;
  const bar = width / BARS_IN_ROW;
  const height = LANES.length * lane;
  let bottom = y + text * 2.4;
  decksOf(row).forEach(({ name, of }, d) => {
    const top = d === 0 ? bottom : bottom + BETWEEN * lane;
    bottom = top + height;
    drawRung(pen, row, of, { x: left, top, bar, lane }, style);
    if (lane >= LETTER * 0.85) {
      LANES.forEach((layer, l) =>
        pen.text({
          text: style.ladder.letter(layer),
          x: left - text * 0.75,
          y: top + (l + 0.5) * lane + LETTER * 0.36,
          size: LETTER,
          bold: false,
          anchor: 'middle',
          role: 'muted',
        }),
      );
    }
    const first = row.map(of).find((x) => x !== null);
    pen.text({
      text: name,
      x: left - text * 7,
      y: top + height * 0.62,
      size: text * 1.5,
      bold: true,
      anchor: 'start',
      role: 'ink',
    });
    if (first) {
      const at = style.words.clock(first.time);
      pen.text({
        text: `${first.number}`,
        x: left - text * 1.5,
        y: top + height * 0.42,
        size: text,
        bold: true,
        anchor: 'end',
        role: 'ink',
      });
      pen.text({
        text: at,
        x: left - text * 1.5,
        y: top + height * 0.42 + text * 1.15,
        size: text,
        bold: false,
        anchor: 'end',
        role: 'muted',
      });
    }
  });
  drawNumbers(pen, row, { left, bar, y: bottom + OVER * lane + text * 0.95, text });
  row.forEach((cell, i) => {
    if (cell.actions.length === 0) return;
    const x = left + i * bar;
    pen.path(`M${x} ${y + text * 1.35}V${bottom}`, { stroke: 'accent', width: lane * 0.45 });
    const late = i > BARS_IN_ROW - 3;
    pen.text({
      text: actions(cell.actions),
      x: late ? x + lane : x,
      y: y + text * 1.05,
      size: text * 1.15,
      bold: true,
      anchor: late ? 'end' : 'start',
      role: 'accent',
    });
  });
}

function drawRung(
  pen: LadderPen,
  row: readonly SharedCell[],
  of: (cell: SharedCell) => SharedBar | null,
  place: { readonly x: number; readonly top: number; readonly bar: number; readonly lane: number },
  style: Style,
): void {
  const { x, top, bar, lane } = place;
  const height = LANES.length * lane;
  LANES.forEach((layer, l) => {
    for (const [from, to] of runs(row, (cell) => (of(cell)?.layers[layer] ?? 0) >= THERE)) {
      const box = { x: x + from * bar, y: top + l * lane + lane * 0.12, width: (to - from) * bar, height: lane * 0.76 };
      for (const { d, stroke, round, dash } of hatch(style.hatches[layer], box, lane, x)) {
        if (d === '') continue;
        pen.path(d, stroke === null ? { fill: 'ink' } : { stroke: 'ink', width: stroke, round, ...(dash && { dash }) });
      }
    }
  });
  row.forEach((cell, i) => {
    const own = of(cell);
    if (own === null) return;
    const at = x + i * bar;
    pen.path(`M${at} ${top}H${at + bar}V${top + height}H${at}Z`, { stroke: 'ink', width: lane * 0.08 });
    // the one of a group stands out, that of a phrase more; a one that falls beside the shared count is marked where it falls
    // a bar that goes on from the cell before has no line here
    if (i > 0 && of(row[i - 1])?.number === own.number) return;
    const line = at + (own.offset / 4) * bar;
    const weight = own.phraseStarts ? 0.5 : own.groupBar === 1 ? 0.28 : 0.08;
    const over = own.phraseStarts ? lane * OVER : own.groupBar === 1 ? lane * 0.25 : 0;
    pen.path(`M${line} ${top - over}V${top + height + over}`, {
      stroke: own.offset === 0 ? 'ink' : 'accent',
      width: lane * weight,
    });
  });
}

function drawNumbers(
  pen: LadderPen,
  row: readonly SharedCell[],
  { left, bar, y, text }: { readonly left: number; readonly bar: number; readonly y: number; readonly text: number },
): void {
  row.forEach((cell, i) => {
    const shown = cell.a ?? cell.b;
    if (shown === null || (shown.groupBar !== 1 && i > 0)) return;
    pen.text({
      text: `${shown.number}`,
      x: left + i * bar + text * 0.2,
      y,
      size: text,
      bold: false,
      anchor: 'start',
      role: 'muted',
    });
  });
}

/** Neighbouring cells for which something holds, as [from, to). */
function runs(row: readonly SharedCell[], holds: (cell: SharedCell) => boolean): [number, number][] {
  const out: [number, number][] = [];
  row.forEach((cell, i) => {
    const last = out.at(-1);
    if (!holds(cell)) return;
    if (last?.[1] === i) last[1] = i + 1;
    else out.push([i, i + 1]);
  });
  return out;
}
