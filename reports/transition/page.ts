import { breakAtSpaces } from '../../src/ladder/index.js';
import { isOpening, keyName, matchWordsOf, planOpening, sayMatch } from '../../src/wording/index.js';
import type { TrackAnalysis } from '../../src/index.js';
import { ladderPen, rule, setLine, tagged, type Canvas } from '../layout/canvas.js';
import { artistOf, titleOf } from '../card/name.js';
import { fitText } from '../layout/fit.js';
import { printable } from '../layout/printable.js';
import type { Paper } from '../layout/paper.js';
import { LEADING, SMALLEST_TYPE, TYPE } from '../layout/type.js';
import type { Style } from '../theme/index.js';
import { drawRow, rowHeight } from './ladders.js';
import { sharedRows, type SharedCell, type Transition } from './rows.js';

/** Draws a transition sheet on one page: the start in large, both ladders on one count, why, and what to mind. */
export function drawTransition(canvas: Canvas, transition: Transition, paper: Paper): void {
  const { width, margin, scale } = paper;
  const inner = width - 2 * margin;
  let y = drawTitle(canvas, transition, margin, margin, inner, scale);
  y = drawStart(canvas, transition, margin, y, inner, scale);
  y = drawLadders(canvas, transition, paper, y + 4 * scale);
  drawRemarks(canvas, transition, paper, y + 4 * scale);
}

function drawTitle(canvas: Canvas, { a, b }: Transition, x: number, top: number, width: number, scale: number): number {
  const { surface, style } = canvas;
  const size = TYPE.heading * 1.25 * scale;
  let y = top;
  tagged(canvas, 'H1', {}, () => {
    for (const [deck, track] of [
      ['A', a],
      ['B', b],
    ] as const) {
      y += size * LEADING;
      const facts = factsOf(track, style);
      // The name has its own place: were it set with its sign, a name without a space would be parted from it and lost.
      const sign = surface.type.measure(`${deck}   `, size, true);
      const room = width - surface.type.measure(facts, size * 0.85, false) - size;
      const fitted = fitText(nameOf(track, style), {
        width: room - sign,
        size,
        least: Math.max(size * 0.8, SMALLEST_TYPE),
        maxLines: 1,
        measure: (text, s) => surface.type.measure(text, s, true),
      });
      setLine(canvas, deck, x, y, { size, bold: true });
      setLine(canvas, fitted.lines[0], x + sign, y, { size: fitted.size, bold: true });
      setLine(canvas, facts, x + width, y, { size: size * 0.85, anchor: 'end', ink: 'muted' });
    }
  });
  rule(canvas, x, x + width, y + size * 0.45, 0.6);
  return y + size * 0.6;
}

function factsOf({ tempo, key }: TrackAnalysis, { words }: Style): string {
  const bpm = `${words.number(tempo.bpm, 2)} BPM`;
  return key.tonic === null || key.mode === null ? bpm : `${bpm}, ${keyName(key.tonic, key.mode, words)}`;
}

/** The start in large: which bar of A, its time, where to count in from. */
function drawStart(canvas: Canvas, { plan }: Transition, x: number, top: number, width: number, scale: number): number {
  const { style, surface } = canvas;
  const words = matchWordsOf(style.words);
  const { a, b } = plan.start;
  const big = 22 * scale;
  const small = TYPE.body * 1.15 * scale;
  let y = top + big * 1.05 + small * 0.3;
  const figureAt = top + big * 1.05;
  tagged(canvas, 'P', {}, () => {
    const figure = `A ${a.bar}  ·  ${style.words.clock(a.time)}  +  B ${b.bar}`;
    setLine(canvas, figure, x, figureAt, { size: big, bold: true });
    const opening = planOpening(plan, 'B', words);
    const doubts = plan.cautions.filter(isOpening).length;
    opening.forEach((said, i) => {
      const bold = i >= opening.length - doubts;
      for (const text of breakAtSpaces(said, (line) => surface.type.measure(line, small, bold) <= width)) {
        y += small * LEADING * 1.1;
        setLine(canvas, text, x, y, { size: small, bold });
      }
    });
  });
  return y + small * 0.5;
}

function drawLadders(canvas: Canvas, transition: Transition, paper: Paper, top: number): number {
  const { style } = canvas;
  const { width, margin, scale } = paper;
  const words = matchWordsOf(style.words);
  const rows = sharedRows(transition);
  const text = TYPE.small * scale;
  const left = text * 7.2;
  const room = (paper.height - margin - top) * 0.74;
  const right = text * 5.4;
  const sizesAt = (lane: number) => ({ left, width: width - 2 * margin - left - right, lane, text });
  let lane = 8 * scale;
  const heightAt = (lane: number) => rows.reduce((sum, row) => sum + rowHeight(row, sizesAt(lane)), 0);
  while (lane > 2 * scale && heightAt(lane) > room) lane -= 0.1 * scale;
  const sizes = sizesAt(lane);
  const height = heightAt(lane);
  const pen = ladderPen(canvas, margin, top);
  const actions = (names: SharedCell['actions']) =>
    names
      .filter((n) => n !== 'change-over' || !names.includes('bass-swap'))
      .map((n) => words.actions[n])
      .join(', ');
  const alt = `${words.headings.ones}: ${transition.plan.steps
    .filter((s) => s.actions.length > 0)
    .map((s) => `${s.a?.bar ?? '–'} / ${s.b?.bar ?? '–'} ${actions(s.actions)}`)
    .join('; ')}`;
  tagged(canvas, 'Figure', { alt, box: [margin, top, width - margin, top + height] }, () => {
    let below = 0;
    rows.forEach((row) => {
      const y = below;
      below += rowHeight(row, sizes);
      drawRow(pen, row, y, sizes, style, actions);
      const step = transition.plan.steps.find(
        (s) => s.beat >= 0 && row.some((c) => c.place * transition.a.metre.beatsPerBar === s.beat),
      );
      if (step === undefined || step.barsLeft === 0 || !row.some((c) => c.aPlays && c.place >= 0)) return;
      const x = left + sizes.width + text * 0.8;
      const at = y + text * 2.4 + lane * 2.2;
      pen.text({
        text: style.words.bars(step.barsLeft),
        x,
        y: at,
        size: text,
        bold: true,
        anchor: 'start',
        role: 'ink',
      });
      pen.text({
        text: `−${style.words.clock(step.timeLeft, 0)}`,
        x,
        y: at + text * 1.2,
        size: text,
        bold: false,
        anchor: 'start',
        role: 'muted',
      });
    });
  });
  return top + height;
}

/** Why, and what to mind, in two columns; what does not fit is left out from the end, the weakest answer never. */
function drawRemarks(canvas: Canvas, { plan, match }: Transition, paper: Paper, top: number): void {
  const { style, surface } = canvas;
  const words = matchWordsOf(style.words);
  const size = TYPE.small * paper.scale;
  const gap = size * 2;
  const width = (paper.width - 2 * paper.margin - gap) / 2;
  const bottom = paper.height - paper.margin;
  const columns = [
    { title: words.headings.why, remarks: plan.reasons },
    { title: words.headings.against, remarks: [...match.obstacles, ...plan.cautions.filter((r) => !isOpening(r))] },
  ];
  columns.forEach(({ title, remarks }, c) => {
    const x = paper.margin + c * (width + gap);
    let y = top + size * LEADING;
    tagged(canvas, 'H2', {}, () => setLine(canvas, title, x, y, { size: size * 1.15, bold: true }));
    for (const remark of remarks) {
      const lines = breakAtSpaces(
        sayMatch(remark, style.words),
        (line) => surface.type.measure(line, size, false) <= width,
      );
      if (y + lines.length * size * LEADING > bottom) break;
      tagged(canvas, 'P', {}, () => {
        for (const line of lines) setLine(canvas, line, x, (y += size * LEADING), { size });
      });
      y += size * 0.25;
    }
  });
}

/** Title and artist as every printed piece gives them: one line, and nothing that cannot be set. */
export function nameOf(track: TrackAnalysis, style: Style): string {
  const artist = artistOf(track);
  return printable(artist === '' ? titleOf(track, style) : `${titleOf(track, style)}, ${artist}`);
}
