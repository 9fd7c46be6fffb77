import {
  describeLadder,
  LANES,
  layoutLadder,
  layoutLegend,
  paintLadder,
  paintLegend,
  PAPER_METRICS,
  scaleMetrics,
  type LadderGeometry,
  type LadderWords,
  type LegendSource,
  unjudgedLayers,
} from '../../src/ladder/index.js';
import type { TrackAnalysis } from '../../src/index.js';
import { ladderPen, setLine, tagged, type Canvas } from '../layout/canvas.js';
import { joinPieces } from '../layout/join.js';
import { LEADING, TYPE } from '../layout/type.js';
import type { CardSetting } from './setting.js';

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

interface Tried {
  readonly density: (typeof DENSITIES)[number];
  readonly geometry: LadderGeometry;
}

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
  { paper, type, style }: CardSetting,
  room: LadderRoom,
  cardPages: (geometry: LadderGeometry) => number,
): LadderGeometry {
  const lay = (density: { readonly lane: number; readonly gap: number }) =>
    layoutLadder(analysis, {
      width: paper.width - 2 * paper.margin,
      height: room.first,
      nextHeight: room.next,
      metrics: scaleMetrics({ ...PAPER_METRICS, ...density }, paper.scale),
      measure: type.measure,
      words: style.ladder,
    });
  let chosen: Tried = { density: DENSITIES[0], geometry: lay(DENSITIES[0]) };
  // On one page the card can have no fewer; else the densest shows how few there can be, and the roomiest of these is it.
  if (chosen.geometry.pages.length > 1) {
    const rank = (g: LadderGeometry) => [cardPages(g), g.pages.length].join();
    const least = rank(lay(DENSITIES[DENSITIES.length - 1]));
    for (const density of DENSITIES) {
      chosen = { density, geometry: lay(density) };
      if (rank(chosen.geometry) === least) break;
    }
  }
  const { density, geometry } = chosen;
  if (geometry.pages.length !== 1) return geometry;
  const left = (room.first - geometry.pages[0].height) / geometry.pages[0].rungs.length / paper.scale;
  const spread = lay({ lane: density.lane, gap: Math.min(WIDEST_GAP, density.gap + left * SPREAD) });
  return spread.pages.length === 1 ? spread : geometry;
}

/** Share of what is left that goes into the gaps: those before sections are half as wide again. */
const SPREAD = 0.65;

/** Draws one page of the ladder under a `Figure` tag; the first carries the description of the whole. */
export function drawLadder(
  canvas: Canvas,
  geometry: LadderGeometry,
  page: number,
  x: number,
  y: number,
  words: LadderWords = canvas.style.ladder,
): void {
  const { style } = canvas;
  const part = geometry.pages[page];
  const alt = page === 0 ? describeLadder(geometry, words) : words.goesOn(part.rungs[0].firstBar);
  const box = [x, y, x + geometry.width, y + part.height] as const;
  tagged(canvas, 'Figure', { alt, box }, () => paintLadder(geometry, part, ladderPen(canvas, x, y), style.hatches));
}

/** Presences that a ladder draws as faint: see `LadderOptions.presenceFrom`. */
const FAINT = [0.25, 0.5] as const;

/** What the rows, cells and hatches mean. */
export function legendOf(analysis: TrackAnalysis, { paper, type, style }: CardSetting) {
  const { scale } = paper;
  const geometry: LegendSource = {
    width: paper.width - 2 * paper.margin,
    metrics: scaleMetrics(PAPER_METRICS, scale),
    lanes: LANES,
    unjudged: unjudgedLayers(analysis),
  };
  const legend = layoutLegend(geometry, type.measure, style.ladder);
  const size = TYPE.small * scale;
  const { legend: said } = style.print;
  const pieces = said.rows(analysis.phraseBars, analysis.metre.beatsPerBar).split(' · ');
  const seesFaint = LANES.some((layer) =>
    analysis.layers[layer].some((p) => p !== null && p >= FAINT[0] && p < FAINT[1]),
  );
  const lastRoom = geometry.width - type.measure('  00 / 00', size, false);
  const fits = (line: string) => type.measure(line, size, false) <= lastRoom;
  const tried = (
    seesFaint
      ? [
          [...pieces, said.faint],
          [...pieces, said.faintShort],
        ]
      : [pieces]
  ).map((p) => joinPieces(p, fits));
  const words = tried.sort((a, b) => a.length - b.length)[0];
  const height = legend.height + words.length * size * LEADING;
  const draw = (canvas: Canvas, x: number, y: number): void => {
    tagged(canvas, 'P', {}, () => {
      paintLegend(geometry, legend.entries, ladderPen(canvas, x, y), style.hatches);
      words.forEach((line, i) =>
        setLine(canvas, line, x, y + legend.height + i * size * LEADING + size * 0.85, { size, ink: 'muted' }),
      );
    });
  };
  return { height, draw };
}
