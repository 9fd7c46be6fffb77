import type { TrackAnalysis } from '../../src/index.js';
import { describeLadder } from '../../src/ladder/index.js';
import { drawLadder, legendOf } from '../card/ladder.js';
import { breakWords } from '../card/happenings.js';
import { layoutHead } from '../card/head.js';
import { trackName } from '../card/name.js';
import { landmarkWords } from '../card/words.js';
import { blockLines, drawLines, pageOfLines, type Block, type BlockLine } from '../layout/blocks.js';
import { rule, type Canvas } from '../layout/canvas.js';
import { ladderInColumns, type LadderColumns } from '../layout/columns.js';
import { printable } from '../layout/printable.js';
import type { Paper } from '../layout/paper.js';
import type { Typesetter } from '../layout/typesetter.js';
import type { Style } from '../theme/index.js';

/** Pages of a diagram ready to be drawn. */
export interface LessonPlan {
  readonly title: string;
  /** What it shows, read out. */
  readonly description: string;
  readonly pages: readonly ((canvas: Canvas) => void)[];
}

/** Share of the width for the words at the right, and between them and the ladder. */
const WORDS_SHARE = 0.245;
const WORDS_APART = 0.025;
/** Columns of words on pages without a ladder. */
const WORDS_ALONE = 3;
/** Most landmarks told. */
const LANDMARKS = 5;

/** Lays out the diagram of one track: its ladder with the count, and at the right how to read and what to listen for. */
export function planLesson(analysis: TrackAnalysis, paper: Paper, type: Typesetter, style: Style): LessonPlan {
  const { margin, scale, width, height } = paper;
  const inner = width - 2 * margin;
  const head = layoutHead(analysis, paper, type, style);
  const legend = legendOf(analysis, { paper, type, style, back: false });
  const legendTop = height - margin - legend.height;
  const bodyTop = head.height + 4 * scale;
  const bodyHeight = legendTop - 6 * scale - bodyTop;
  const room = { width: inner * (1 - WORDS_SHARE - WORDS_APART), height: bodyHeight, scale, most: 3 };
  const ladder = ladderInColumns(analysis, room, type, style);
  const columns = dealLines(
    blockLines(lessonBlocks(analysis, style), inner * WORDS_SHARE, scale, type.measure),
    bodyHeight,
  );
  const beside = Math.max(1, ladder.pages);
  const count = beside + Math.max(0, Math.ceil((columns.length - beside) / WORDS_ALONE));
  const setWords = (canvas: Canvas, column: number, x: number): void => {
    const words = columns[column];
    if (words !== undefined) drawLines(canvas, words, margin + inner * x, bodyTop - 4 * scale);
  };
  const pages = Array.from({ length: count }, (_, i) => (canvas: Canvas): void => {
    head.draw(canvas);
    drawColumns(canvas, ladder, i, margin, bodyTop);
    if (i < beside) setWords(canvas, i, 1 - WORDS_SHARE);
    for (let c = 0; i >= beside && c < WORDS_ALONE; c++)
      setWords(canvas, beside + (i - beside) * WORDS_ALONE + c, c * (WORDS_SHARE + WORDS_APART));
    rule(canvas, margin, width - margin, legendTop - 3 * scale, 0.5 * scale);
    legend.draw(canvas, margin, legendTop);
  });
  const name = printable(trackName(analysis, style));
  const told = lessonBlocks(analysis, style).flatMap((b) => (b.kind === 'paragraph' ? [b.text] : []));
  return {
    title: style.print.documents.lesson(name),
    description: [describeLadder(ladder.geometry, style.ladder), ...told].join(' '),
    pages,
  };
}

/** Draws the columns of one page of a ladder. */
export function drawColumns(canvas: Canvas, ladder: LadderColumns, page: number, x: number, y: number): void {
  const { geometry, columns, pitch } = ladder;
  for (let c = 0; c < columns; c++) {
    const part = page * columns + c;
    if (part < geometry.pages.length) drawLadder(canvas, geometry, part, x + c * pitch, y);
  }
}

function dealLines(lines: readonly BlockLine[], height: number): readonly (readonly BlockLine[])[] {
  const columns: (readonly BlockLine[])[] = [];
  for (let from = 0; from < lines.length;) {
    const page = pageOfLines(lines, from, height);
    columns.push(page.lines);
    from = page.next;
  }
  return columns;
}

function lessonBlocks(analysis: TrackAnalysis, style: Style): readonly Block[] {
  const { lesson } = style.print;
  const blocks: Block[] = [];
  const add = (heading: string, texts: readonly string[]) => {
    if (texts.length === 0) return;
    blocks.push({ kind: 'heading', text: heading });
    for (const text of texts) blocks.push({ kind: 'paragraph', text: printable(text) });
  };
  if (analysis.bars.length === 0) {
    add(style.words.card.headings.noLadder, [style.words.card.nothingToCountBy]);
    return blocks;
  }
  add(lesson.howToCount, [lesson.counting(analysis.metre.beatsPerBar)]);
  const odd = analysis.phrases.some((p) => !p.regular);
  add(lesson.howToRead, [lesson.reading(analysis.phraseBars), ...(odd ? [lesson.odd(analysis.phraseBars)] : [])]);
  add(lesson.breaks, breakWords(analysis, style));
  add(lesson.landmarks, landmarkWords(analysis, style, LANDMARKS));
  return blocks;
}
