import { setImmediate } from 'node:timers/promises';
import { throwIfAborted, type RunOptions, type TrackAnalysis } from '../../src/index.js';
import { paintPaper, type Canvas } from '../layout/canvas.js';
import type { PieceDocument } from '../layout/document.js';
import { imposeCards, planSheet, type SheetOrder } from '../layout/sheet.js';
import type { Paper } from '../layout/paper.js';
import { drawSheetMarks } from './marks.js';
import { planCard, type CardPlan } from './plan.js';
import type { CardSetting } from './setting.js';
import type { PrintWarning } from './warnings.js';

/** Cards to be drawn into a document. */
export interface CardJob extends RunOptions {
  readonly piece: PieceDocument;
  readonly analyses: readonly TrackAnalysis[];
  readonly setting: CardSetting;
  /** What is printed beyond the trimmed edge, in points. */
  readonly bleed: number;
}

export interface Drawn {
  readonly pages: number;
  readonly warnings: readonly PrintWarning[];
}

/** One page a card page, in order, with a bookmark for each card; each card is forgotten once it is drawn. */
export async function drawCards(job: CardJob): Promise<Drawn> {
  const { analyses, piece, setting, bleed } = job;
  const { doc, root, surface } = piece;
  const { paper, style } = setting;
  const warnings: PrintWarning[] = [];
  let pages = 0;
  for (const [i, analysis] of analyses.entries()) {
    await breathe(job, i);
    const plan = planCard(analysis, setting);
    warnings.push(...plan.warnings);
    const section = surface.open(root, 'Sect', plan.name);
    plan.pages.forEach((draw, page) => {
      piece.addPage(paper, bleed);
      if (page === 0) doc.outline.addItem(plan.name);
      const canvas = { surface, style, section, x: bleed, y: bleed };
      paintPaper(canvas, paper, bleed);
      draw(canvas);
    });
    surface.close(section);
    pages += plan.pages.length;
  }
  await breathe(job, analyses.length);
  return { pages, warnings };
}

/** Cards on sheets with marks to cut along, backs behind their fronts. */
export async function drawSheets(job: CardJob, sheet: Paper, order: SheetOrder): Promise<Drawn> {
  const { analyses, piece, setting, bleed } = job;
  const { doc, root, surface } = piece;
  const { paper, style } = setting;
  const layout = planSheet(paper, sheet, bleed);
  // Plans hold every line of their cards: a card is planned once to be counted and again when its sheet is drawn.
  const counted: Pick<CardPlan, 'name' | 'warnings'>[] = [];
  const left: number[] = [];
  for (const [i, analysis] of analyses.entries()) {
    await breathe(job, i / 2);
    const { name, warnings, pages } = planCard(analysis, setting);
    counted.push({ name, warnings });
    left.push(pages.length);
  }
  const sections = counted.map(({ name }) => surface.open(root, 'Sect', name));
  const sides = imposeCards(left, layout, order);
  const sheets = Math.ceil(sides.length / (sides.some((s) => s.side === 'back') ? 2 : 1));
  const plans = new Map<number, CardPlan>();
  for (const [i, side] of sides.entries()) {
    await breathe(job, (analyses.length * (1 + i / sides.length)) / 2);
    piece.addPage(layout, 0);
    side.places.forEach((what, place) => {
      if (what === null) return;
      const { card, page } = what;
      const plan = plans.get(card) ?? planCard(analyses[card], setting);
      plans.set(card, plan);
      const canvas: Canvas = { surface, style, section: sections[card], ...layout.places[place] };
      if (page === 0) doc.outline.addItem(plan.name);
      paintPaper(canvas, paper, bleed);
      plan.pages[page](canvas);
      if (--left[card] > 0) return;
      surface.close(sections[card]);
      plans.delete(card);
    });
    drawSheetMarks({ surface, style, section: root, x: 0, y: 0 }, layout, side, sheets);
  }
  await breathe(job, analyses.length);
  return { pages: sides.length, warnings: counted.flatMap((p) => p.warnings) };
}

/** Lets others have their turn between two cards, tells how far it is, and stops when asked to. */
async function breathe({ analyses, onProgress, signal }: CardJob, done: number): Promise<void> {
  if (done > 0) onProgress?.({ stage: 'cards', done: done / analyses.length });
  await setImmediate();
  throwIfAborted(signal);
}
