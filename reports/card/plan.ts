import type { TrackAnalysis } from '../../src/index.js';
import type { LadderGeometry } from '../../src/ladder/index.js';
import { blockLines, drawLines, linesHeight, linesThatFit, pageOfLines, type BlockLine } from '../layout/blocks.js';
import { artifact, rule, setLine, tagged, type Canvas } from '../layout/canvas.js';
import { fitText } from '../layout/fit.js';
import { printable } from '../layout/printable.js';
import type { Paper } from '../layout/paper.js';
import { TYPE } from '../layout/type.js';
import type { Typesetter } from '../layout/typesetter.js';
import { layoutHead } from './head.js';
import { drawLadder, fitLadder, legendOf } from './ladder.js';
import { titleOf, trackName } from './name.js';
import type { CardSetting } from './setting.js';
import { cardWarnings, type PrintWarning } from './warnings.js';
import { cardBlocks } from './words.js';

/** A card ready to be drawn: the front and as many pages behind it as its words need. */
export interface CardPlan {
  readonly name: string;
  readonly pages: readonly ((canvas: Canvas) => void)[];
  readonly warnings: readonly PrintWarning[];
}

/** Words start below the end of a ladder when at least this share of the page's height is left. */
const WORDS_NEED = 0.2;

/** Lays a card out: nothing is drawn yet, every line has its page. */
export function planCard(analysis: TrackAnalysis, setting: CardSetting): CardPlan {
  const { paper, type, style } = setting;
  const { margin, scale, width, height } = paper;
  const bottom = height - margin;
  const head = layoutHead(analysis, paper, type, style);
  const headed = margin + TYPE.heading * scale * 1.9;
  const legend = legendOf(analysis, setting);
  const wordsBottom = bottom - TYPE.small * scale * 1.6;
  const legendTop = bottom - legend.height;
  const room = { first: legendTop - 5 * scale - head.height, next: wordsBottom - headed };
  const warnings = cardWarnings(analysis, head.cut, type, style);
  const blocks = cardBlocks(analysis, style, { cut: head.cut, remarks: warnings.map((w) => w.message) });
  const lines = setting.back ? blockLines(blocks, width - 2 * margin, scale, type.measure) : [];
  const deal = ({ pages }: LadderGeometry) => {
    const top = pages.length === 0 ? head.height : pages.length === 1 ? bottom : headed + pages.at(-1)!.height;
    const rooms = { first: wordsBottom - top, next: wordsBottom - headed, least: height * WORDS_NEED };
    const shares = shareLines(lines, rooms);
    return { top, shares, count: Math.max(1, pages.length) + shares.length - 1 };
  };
  const geometry = fitLadder(analysis, setting, room, (g) => deal(g).count);
  const rungPages = geometry.pages.length;
  const { top: wordsTop, shares, count } = deal(geometry);
  const shared = Math.max(1, rungPages);
  const pages = Array.from({ length: count }, (_, i) => (canvas: Canvas) => {
    if (i === 0) head.draw(canvas);
    else drawRunningHead(canvas, printable(titleOf(analysis, style)), paper, type);
    if (i < rungPages) drawLadder(canvas, geometry, i, margin, i === 0 ? head.height : headed);
    if (i === 0 && rungPages > 0) {
      rule(canvas, margin, width - margin, legendTop - 3 * scale, 0.5 * scale);
      legend.draw(canvas, margin, legendTop);
    }
    const words = shares[i - shared + 1];
    if (words !== undefined) {
      const top = i < shared ? wordsTop : headed - 4 * scale;
      drawLines(canvas, words, margin, top);
      if (i === count - 1 && words.length > 0) drawNotes(canvas, paper, top + linesHeight(words), wordsBottom);
    }
    if (count > 1) drawPageNumber(canvas, style.words.card.page(i + 1, count), paper);
  });
  return { name: printable(trackName(analysis, style)), pages, warnings };
}

/** Deals lines out to the rest of the last ladder page (perhaps none) and to the pages after it. */
function shareLines(
  lines: readonly BlockLine[],
  room: { readonly first: number; readonly next: number; readonly least: number },
): readonly (readonly BlockLine[])[] {
  const fitting = linesThatFit(lines, 0, room.first);
  const onLadder = room.first >= room.least || fitting === lines.length ? fitting : 0;
  const shares: (readonly BlockLine[])[] = [lines.slice(0, onLadder)];
  for (let from = onLadder; from < lines.length;) {
    const page = pageOfLines(lines, from, room.next);
    shares.push(page.lines);
    from = page.next;
  }
  return shares;
}

/** Distance of the lines to write on, and the least number of them worth a heading. */
const NOTE_LEADING = 19;
const LEAST_NOTES = 2;

/** What is left of the last page is ruled for notes. */
function drawNotes(canvas: Canvas, paper: Paper, from: number, bottom: number): void {
  const { margin, scale, width } = paper;
  const size = TYPE.heading * scale;
  const top = from + size * 2;
  // A hand needs the same room on every paper.
  const leading = NOTE_LEADING * Math.min(scale, 1.25);
  const count = Math.floor((bottom - top) / leading);
  if (count < LEAST_NOTES) return;
  tagged(canvas, 'H2', {}, () => setLine(canvas, canvas.style.print.back.notes, margin, top, { size, bold: true }));
  for (let i = 1; i <= count; i++) rule(canvas, margin, width - margin, top + i * leading, 0.25 * scale, 'muted');
}

function drawRunningHead(canvas: Canvas, title: string, paper: Paper, type: Typesetter): void {
  const { margin, scale } = paper;
  const width = paper.width - 2 * margin;
  const size = TYPE.heading * scale;
  const measure = (text: string, at: number) => type.measure(text, at, true);
  const [line] = fitText(title, { width, size, least: size, maxLines: 1, measure }).lines;
  artifact(canvas, 'Pagination', () => setLine(canvas, line, margin, margin + size * 0.8, { size, bold: true }));
  rule(canvas, margin, margin + width, margin + size * 1.25, 0.5 * scale);
}

function drawPageNumber(canvas: Canvas, text: string, paper: Paper): void {
  const { margin, scale, width, height } = paper;
  const size = TYPE.small * scale;
  const y = height - margin - size * 0.35;
  artifact(canvas, 'Pagination', () => setLine(canvas, text, width - margin, y, { size, anchor: 'end', ink: 'muted' }));
}
