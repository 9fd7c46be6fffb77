import {
  describeLadder,
  layoutLadder,
  layoutLegend,
  paintLadder,
  paintLegend,
  PAPER_METRICS,
  scaleMetrics,
  type LadderGeometry,
} from '../../src/ladder/index.js';
import type { TrackAnalysis } from '../../src/index.js';
import { setLine, tagged, type Canvas } from '../layout/canvas.js';
import type { Paper } from '../layout/paper.js';
import { pdfPen } from '../layout/pen.js';
import { LEADING, TYPE } from '../layout/type.js';
import type { Typesetter } from '../layout/typesetter.js';

/** Height of a lane and gap between rungs in points on the smallest card, from roomy to dense. The type keeps its size. */
const DENSITIES = [
  { lane: 5, gap: 4.5 },
  { lane: 4.6, gap: 4 },
  { lane: 4.2, gap: 3.5 },
  { lane: 3.8, gap: 3 },
  { lane: 3.5, gap: 2.6 },
  { lane: 3.2, gap: 2.3 },
  { lane: 2.9, gap: 2 },
  { lane: 2.7, gap: 2 },
] as const;

export interface LadderRoom {
  readonly first: number;
  readonly next: number;
}

/** Widest gap between rungs into which what is left of a page goes, on the smallest card. */
const WIDEST_GAP = 9;

/**
 * The ladder so that the whole card has as few pages as can be, then the ladder itself, and there as roomy as can be.
 * @param cardPages pages of the card with a ladder laid out so
 */
export function fitLadder(
  analysis: TrackAnalysis,
  paper: Paper,
  room: LadderRoom,
  type: Typesetter,
  cardPages: (geometry: LadderGeometry) => number,
): LadderGeometry {
  const lay = (density: { readonly lane: number; readonly gap: number }) =>
    layoutLadder(analysis, {
      width: paper.width - 2 * paper.margin,
      height: room.first,
      nextHeight: room.next,
      metrics: scaleMetrics({ ...PAPER_METRICS, ...density }, paper.scale),
      measure: type.measure,
    });
  const tried = DENSITIES.map((density) => ({ density, geometry: lay(density) }));
  const fewer = (a: LadderGeometry, b: LadderGeometry) =>
    cardPages(a) - cardPages(b) || a.pages.length - b.pages.length;
  // The sort is stable: among equals the roomiest stays first.
  const [{ density, geometry }] = tried.sort((a, b) => fewer(a.geometry, b.geometry));
  if (geometry.pages.length !== 1) return geometry;
  const left = (room.first - geometry.pages[0].height) / geometry.pages[0].rungs.length / paper.scale;
  const spread = lay({ lane: density.lane, gap: Math.min(WIDEST_GAP, density.gap + left * SPREAD) });
  return spread.pages.length === 1 ? spread : geometry;
}

/** Share of what is left that goes into the gaps: those before sections are half as wide again. */
const SPREAD = 0.65;

/** Draws one page of the ladder under a `Figure` tag; the first carries the description of the whole. */
export function drawLadder(canvas: Canvas, geometry: LadderGeometry, page: number, x: number, y: number): void {
  const { piece, theme } = canvas;
  const part = geometry.pages[page];
  const alt = page === 0 ? describeLadder(geometry) : `The ladder goes on from bar ${part.rungs[0].firstBar}.`;
  const box = [x, y, x + geometry.width, y + part.height] as const;
  tagged(canvas, 'Figure', { alt, box }, () =>
    paintLadder(geometry, part, pdfPen(piece.doc, piece.type, theme, { x: canvas.x + x, y: canvas.y + y })),
  );
}

/** What the rows, cells and hatches mean. */
export function legendOf(analysis: TrackAnalysis, paper: Paper, type: Typesetter) {
  const { scale } = paper;
  const geometry = layoutLadder(analysis, {
    width: paper.width - 2 * paper.margin,
    metrics: scaleMetrics(PAPER_METRICS, scale),
    measure: type.measure,
  });
  const legend = layoutLegend(geometry, type.measure);
  const size = TYPE.small * scale;
  const beats = geometry.beatsPerBar === 4 ? '' : ` of ${geometry.beatsPerBar} beats`;
  const rows = `row: phrase · cell: bar${beats} · heavy line: every four · ruled edge: ${geometry.phraseBars} bars`;
  const faint = geometry.pages.some((p) => p.rungs.some((r) => r.strips.some((s) => s.presence === 'partly')));
  const room = geometry.width - type.measure('  00 of 00', size, false);
  const said = faint ? [`${rows} · dashes: faint`, `${rows} · - - faint`] : [rows];
  const words = said.find((line) => type.measure(line, size, false) <= room) ?? rows;
  const height = legend.height + size * LEADING;
  const draw = (canvas: Canvas, x: number, y: number): void => {
    const { piece, theme } = canvas;
    tagged(canvas, 'P', {}, () => {
      paintLegend(geometry, legend.entries, pdfPen(piece.doc, piece.type, theme, { x: canvas.x + x, y: canvas.y + y }));
      setLine(canvas, words, x, y + legend.height + size * 0.85, { size, ink: 'muted' });
    });
  };
  return { height, draw };
}
