import { setImmediate } from 'node:timers/promises';
import { throwIfAborted, type RunOptions, type TrackAnalysis } from '../../src/index.js';
import type { LadderTheme } from '../../src/ladder/index.js';
import type { Canvas } from '../layout/canvas.js';
import type { PieceDocument } from '../layout/document.js';
import { A4_SHEET, cardPlaces, type Paper } from '../layout/paper.js';
import { drawCropMarks, imposeCards } from '../layout/sheet.js';
import { planCard, type CardPlan } from './plan.js';
import type { PrintWarning } from './warnings.js';

/** Cards to be drawn into a document. */
export interface CardJob extends RunOptions {
  readonly piece: PieceDocument;
  readonly analyses: readonly TrackAnalysis[];
  readonly paper: Paper;
  readonly theme: LadderTheme;
}

export interface Drawn {
  readonly pages: number;
  readonly warnings: readonly PrintWarning[];
}

/** One page a card page, in order, with a bookmark for each card; each card is forgotten once it is drawn. */
export async function drawCards(job: CardJob): Promise<Drawn> {
  const { analyses, paper, piece, theme } = job;
  const { doc, root, type } = piece;
  const warnings: PrintWarning[] = [];
  let pages = 0;
  for (const [i, analysis] of analyses.entries()) {
    await breathe(job, i);
    const plan = planCard(analysis, paper, type);
    warnings.push(...plan.warnings);
    const section = doc.struct('Sect', { title: plan.name });
    root.add(section);
    plan.pages.forEach((draw, page) => {
      doc.addPage({ size: [paper.width, paper.height], margin: 0 });
      if (page === 0) doc.outline.addItem(plan.name);
      draw({ piece, theme, section, x: 0, y: 0 });
    });
    section.end();
    pages += plan.pages.length;
  }
  await breathe(job, analyses.length);
  return { pages, warnings };
}

/** Four cards to a sheet with marks to cut along, backs behind their fronts. */
export async function drawSheets(job: CardJob): Promise<Drawn> {
  const { analyses, paper, piece, theme } = job;
  const { doc, root, type } = piece;
  const plans: CardPlan[] = [];
  for (const [i, analysis] of analyses.entries()) {
    await breathe(job, i);
    plans.push(planCard(analysis, paper, type));
  }
  const sections = plans.map((plan) => {
    const section = doc.struct('Sect', { title: plan.name });
    root.add(section);
    return section;
  });
  const places = cardPlaces();
  const sides = imposeCards(plans.map((p) => p.pages.length));
  for (const side of sides) {
    doc.addPage({ size: [A4_SHEET.width, A4_SHEET.height], margin: 0 });
    side.places.forEach((what, place) => {
      if (what === null) return;
      const canvas: Canvas = { piece, theme, section: sections[what.card], ...places[place] };
      if (what.page === 0) doc.outline.addItem(plans[what.card].name);
      plans[what.card].pages[what.page](canvas);
    });
    drawCropMarks({ piece, theme, section: root, x: 0, y: 0 });
  }
  for (const section of sections) section.end();
  await breathe(job, analyses.length);
  return { pages: sides.length, warnings: plans.flatMap((p) => p.warnings) };
}

/** Lets others have their turn between two cards, tells how far it is, and stops when asked to. */
async function breathe({ analyses, onProgress, signal }: CardJob, done: number): Promise<void> {
  if (done > 0) onProgress?.({ stage: 'cards', done: done / analyses.length });
  await setImmediate();
  throwIfAborted(signal);
}
