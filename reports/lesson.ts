import { BarwiseError, throwIfAborted, type RunOptions, type TrackAnalysis } from '../src/index.js';
import type { Language } from '../src/wording/index.js';
import type { PrintResult } from './card.js';
import { cardWarnings } from './card/warnings.js';
import { planComparison } from './lesson/compare.js';
import { planLesson, type LessonPlan } from './lesson/single.js';
import { paintPaper, type Canvas } from './layout/canvas.js';
import { openDocument, type PieceDocument } from './layout/document.js';
import { loadFaces } from './layout/fonts.js';
import { checkTarget, deliver, type PieceTarget } from './layout/output.js';
import { LESSON_PAPERS, POINTS_PER_MM, type LessonPaper, type Paper } from './layout/paper.js';
import { openPicture, toPng } from './layout/picture.js';
import { signPng, signSvg } from './layout/signature.js';
import { styleOf, type Style, type ThemeData } from './theme/index.js';

/** What a lesson diagram can be written as. @public */
export const PICTURE_FORMATS = ['pdf', 'svg', 'png'] as const;
/** One of `PICTURE_FORMATS`. @public */
export type PictureFormat = (typeof PICTURE_FORMATS)[number];

/** How a lesson diagram is drawn. @public */
export interface LessonOptions extends RunOptions {
  /** Default `A4`, lying. */
  readonly paper?: LessonPaper;
  /** Default: what the name of the file ends in, else PDF. */
  readonly format?: PictureFormat;
  /** Pixels to the inch of a PNG, 50 to 600; default 150. */
  readonly resolution?: number;
  readonly theme?: ThemeData;
  readonly language?: Language;
  /** Replaces files even if they are not ours, unchanged; default false. */
  readonly overwrite?: boolean;
}

/** Pixels to the inch: default, least and most. */
const RESOLUTION = { usual: 150, least: 50, most: 600 } as const;

/**
 * Makes the diagram of one track for a lesson, or one that sets two side by side: the ladder with the count over its
 * bars, what enters and leaves, and short explanations. Pages after the first of an SVG or PNG go to files of their own,
 * `name-2.svg` and so on.
 * @public
 * @param tracks one track or two
 * @param target name of a file, or a stream, which is ended
 * @throws BarwiseError as `printCards`; `missing-package` for a PNG where @resvg/resvg-wasm is not installed
 * @example await printLesson([analysis], 'lesson.svg', { paper: '16:9' })
 */
export async function printLesson(
  tracks: readonly TrackAnalysis[],
  target: PieceTarget,
  options: LessonOptions = {},
): Promise<PrintResult> {
  const { paper: paperName = 'A4', resolution = RESOLUTION.usual, overwrite = false, signal } = options;
  if (!Object.hasOwn(LESSON_PAPERS, paperName)) {
    const known = Object.keys(LESSON_PAPERS).join(', ');
    throw new BarwiseError('bad-option', `There is no paper "${paperName}" for a diagram: use ${known}.`);
  }
  if (!(resolution >= RESOLUTION.least && resolution <= RESOLUTION.most))
    throw new BarwiseError(
      'bad-option',
      `The resolution is ${resolution}: give ${RESOLUTION.least} to ${RESOLUTION.most}.`,
    );
  const format = options.format ?? formatOf(target);
  const paper = LESSON_PAPERS[paperName];
  const style = styleOf(options.theme, options.language);
  throwIfAborted(signal);
  const piece = await openDocument({ title: '', language: style.words.tag });
  const plan = planOf(tracks, paper, piece, style);
  piece.setTitle(plan.title);
  const names = Array.from({ length: format === 'pdf' ? 1 : plan.pages.length }, (_, i) => pageTarget(target, i));
  for (const name of names) await checkTarget(name, overwrite);
  if (format === 'pdf') await deliver(await drawPdf(plan, paper, piece, style), target);
  else {
    const faces = await loadFaces();
    for (const [i, draw] of plan.pages.entries()) {
      throwIfAborted(signal);
      const picture = openPicture(paper, style.colours.paper, piece.type, faces);
      draw({ surface: picture.surface, style, section: null, x: 0, y: 0 });
      const svg = picture.svg(plan.title, plan.description, style.words.tag);
      const pixels = Math.round((paper.width / POINTS_PER_MM / 25.4) * resolution);
      await deliver(format === 'svg' ? signSvg(svg) : signPng(await toPng(svg, pixels)), names[i]);
    }
  }
  const warnings = tracks.flatMap((track) => cardWarnings(track, [], piece.type, style));
  const files = names.filter((name) => typeof name === 'string');
  return { pages: plan.pages.length, warnings, ...(files.length > 0 ? { files } : {}) };
}

function planOf(tracks: readonly TrackAnalysis[], paper: Paper, { type }: PieceDocument, style: Style): LessonPlan {
  const [one, other] = tracks;
  if (one === undefined || tracks.length > 2)
    throw new BarwiseError('bad-option', 'A diagram shows one track or compares two: give one or two.');
  return other === undefined ? planLesson(one, paper, type, style) : planComparison([one, other], paper, type, style);
}

async function drawPdf(plan: LessonPlan, paper: Paper, piece: PieceDocument, style: Style): Promise<Buffer> {
  const { surface } = piece;
  const section = surface.open(piece.root, 'Sect', plan.title);
  plan.pages.forEach((draw, i) => {
    piece.addPage(paper);
    if (i === 0) piece.doc.outline.addItem(plan.title);
    const canvas: Canvas = { surface, style, section, x: 0, y: 0 };
    paintPaper(canvas, paper, 0);
    draw(canvas);
  });
  surface.close(section);
  return piece.finish();
}

function formatOf(target: PieceTarget): PictureFormat {
  if (typeof target !== 'string') return 'pdf';
  return PICTURE_FORMATS.find((format) => target.toLowerCase().endsWith(`.${format}`)) ?? 'pdf';
}

/** `lesson.svg`, `lesson-2.svg`, … */
function pageTarget(target: PieceTarget, page: number): PieceTarget {
  if (page === 0) return target;
  if (typeof target === 'string') return target.replace(/(\.[^.\\/]*)?$/, (ending) => `-${page + 1}${ending}`);
  throw new BarwiseError(
    'bad-option',
    'The diagram has several pages, which one stream cannot take: give a file name.',
  );
}
