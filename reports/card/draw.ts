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
  const plans: CardPlan[] = [];
  for (const [i, analysis] of analyses.entries()) {
    await breathe(job, i);
    plans.push(planCard(analysis, setting));
  }
  const sections = plans.map((plan) => surface.open(root, 'Sect', plan.name));
  const left = plans.map((p) => p.pages.length);
  const sides = imposeCards(left, layout, order);
  const sheets = Math.ceil(sides.length / (sides.some((s) => s.side === 'back') ? 2 : 1));
  for (const side of sides) {
    piece.addPage(layout, 0);
    side.places.forEach((what, place) => {
      if (what === null) return;
      const canvas: Canvas = { surface, style, section: sections[what.card], ...layout.places[place] };
      if (what.page === 0) doc.outline.addItem(plans[what.card].name);
      paintPaper(canvas, paper, bleed);
      plans[what.card].pages[what.page](canvas);
      if (--left[what.card] === 0) surface.close(sections[what.card]);
    });
    drawSheetMarks({ surface, style, section: root, x: 0, y: 0 }, layout, side, sheets);
  }
  await breathe(job, analyses.length);
  return { pages: sides.length, warnings: plans.flatMap((p) => p.warnings) };
}

/** Lets others have their turn between two cards, tells how far it is, and stops when asked to. */
async function breathe({ analyses, onProgress, signal }: CardJob, done: number): Promise<void> {
  if (done > 0) onProgress?.({ stage: 'cards', done: done / analyses.length });
  await setImmediate();
  throwIfAborted(signal);
}
