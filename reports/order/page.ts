import { keyName } from '../../src/wording/index.js';
import type { RunningOrder, TrackAnalysis, WishOutcome } from '../../src/index.js';
import { ladderPen, paintPaper, rule, setLine, tagged, type Canvas } from '../layout/canvas.js';
import { fitText } from '../layout/fit.js';
import type { Paper } from '../layout/paper.js';
import { LEADING, SMALLEST_TYPE, TYPE } from '../layout/type.js';
import { nameOf } from '../transition/page.js';
import { drawCurve, type CurvePoint } from './curve.js';
import { eveningOf, type EveningTrack } from './evening.js';
import { wordsFor, type OrderWords } from './words.js';

/** What the overview of a running order shows. */
export interface OrderPlan {
  readonly order: RunningOrder;
  readonly tracks: readonly TrackAnalysis[];
  readonly wishes: readonly WishOutcome[];
}

/** Height of one curve, in points on the smallest card. */
const CURVE = 62;
/** Columns: left edges as shares of the width, and how their text stands. */
const COLUMNS = [
  { at: 0.03, anchor: 'end' },
  { at: 0.045, anchor: 'start' },
  { at: 0.475, anchor: 'end' },
  { at: 0.495, anchor: 'start' },
  { at: 0.66, anchor: 'end' },
  { at: 0.745, anchor: 'end' },
  { at: 0.765, anchor: 'start' },
] as const;

/**
 * Draws the overview: curves of what was measured over the evening, the wishes and what became of them, and the list.
 * @param newPage gives the canvas of the next page, where the list needs more than one
 */
export function drawOrder(first: Canvas, plan: OrderPlan, paper: Paper, newPage: () => Canvas): void {
  const { style, surface } = first;
  const words = wordsFor(style);
  const evening = eveningOf(plan.order, plan.tracks);
  const { margin, width, height, scale } = paper;
  const inner = width - 2 * margin;
  const [big, small] = [TYPE.heading * 1.9 * scale, TYPE.body * scale];
  let canvas = first;
  paintPaper(canvas, paper, 0);
  let y = margin + big;
  tagged(canvas, 'H1', {}, () => setLine(canvas, words.title, margin, y, { size: big, bold: true }));
  const until = evening.at(-1)?.to ?? 0;
  const summary = words.summary(evening.length, hours(until), plan.order.method === 'exact');
  y += small * LEADING * 1.4;
  tagged(canvas, 'P', {}, () => setLine(canvas, summary, margin, y, { size: small }));
  y = drawCurves(canvas, evening, words, paper, y + small * 1.6);
  y = drawWishes(canvas, plan, words, paper, y);
  const line = small * LEADING * 1.25;
  const heads = () => {
    tagged(canvas, 'P', {}, () => setCells(canvas, words.heads, y, true));
    rule(canvas, margin, margin + inner, y + small * 0.4, 0.6);
    y += line * 1.15;
  };
  const setCells = (on: Canvas, cells: readonly string[], at: number, bold = false) =>
    cells.forEach((text, c) => {
      if (text === '') return;
      const next = COLUMNS[c + 1]?.at ?? 1;
      const room = (COLUMNS[c].anchor === 'start' ? next - COLUMNS[c].at : 1) * inner - small * (c === 1 ? 3.2 : 0.4);
      const fitted = fitText(text, {
        width: room,
        size: small,
        least: SMALLEST_TYPE,
        maxLines: 1,
        measure: (t, s) => surface.type.measure(t, s, bold),
      });
      const x = margin + COLUMNS[c].at * inner;
      setLine(on, fitted.lines[0], x, at, { size: fitted.size, bold, anchor: COLUMNS[c].anchor });
    });
  heads();
  evening.forEach(({ track, entry }, i) => {
    if (y > height - margin) {
      canvas = newPage();
      paintPaper(canvas, paper, 0);
      y = margin + small;
      heads();
    }
    const { tonic, mode } = track.key;
    const cells = [
      `${i + 1}`,
      nameOf(track, style),
      style.words.number(track.tempo.bpm, 1),
      tonic === null || mode === null ? '–' : keyName(tonic, mode, style.words),
      entry.integratedLufs === null ? '–' : style.words.number(entry.integratedLufs, 1, 'fixed'),
      style.words.number(entry.density, 1, 'fixed'),
      comesIn(plan.order, i, canvas),
    ];
    tagged(canvas, 'P', {}, () => setCells(canvas, cells, y));
    y += line;
  });
}

function drawCurves(
  canvas: Canvas,
  evening: readonly EveningTrack[],
  words: OrderWords,
  { margin, width, scale }: Paper,
  top: number,
): number {
  const { style } = canvas;
  const text = TYPE.small * scale;
  const left = text * 3.6;
  const until = evening.at(-1)?.to ?? 0;
  const curve = (value: (t: EveningTrack) => number | null, wanted?: (t: EveningTrack) => number | null) =>
    evening.map((t): CurvePoint => ({ at: (t.from + t.to) / 2, value: value(t), wanted: wanted?.(t) ?? null }));
  const hasShape = evening.some(({ entry }) => entry.wanted !== null);
  const figure = (value: number) => style.words.number(value, 1, 'fixed');
  const curves = [
    { title: words.loudness, points: curve((t) => t.entry.integratedLufs), say: figure },
    { title: words.density, points: curve((t) => t.entry.density), say: figure },
    ...(hasShape
      ? [{ title: words.shape, points: curve((t) => t.entry.level, (t) => t.entry.wanted), say: () => '' }] // prettier-ignore
      : []),
  ];
  let y = top;
  for (const { title, points, say } of curves) {
    const size = {
      x: left,
      y: text * 1.9,
      width: width - 2 * margin - left - text,
      height: CURVE * scale * 0.72,
      text,
    };
    const bottom = y + size.y + size.height;
    const alt = `${title}: ${points.map(({ value }, i) => `${i + 1} ${value === null ? '–' : figure(value)}`).join(', ')}`;
    tagged(canvas, 'Figure', { alt, box: [margin, y, width - margin, bottom] }, () => {
      const pen = ladderPen(canvas, margin, y);
      pen.text({ text: title, x: 0, y: text, size: text * 1.1, bold: true, anchor: 'start', role: 'ink' });
      drawCurve(pen, points, until, size, say);
      if (title !== curves[curves.length - 1].title) return;
      for (const [i, { from, to }] of evening.entries()) {
        const at = left + ((from + to) / 2 / Math.max(until, 1)) * size.width;
        if (evening.length > 40 && i % 10 !== 9 && i > 0) continue;
        pen.text({ text: `${i + 1}`, x: at, y: size.y + size.height + text * 1.3, size: text, bold: false, anchor: 'middle', role: 'muted' }); // prettier-ignore
      }
    });
    y = bottom + text * 1.2;
  }
  return y + text * 1.6;
}

function drawWishes(canvas: Canvas, plan: OrderPlan, words: OrderWords, { margin, scale }: Paper, top: number): number {
  if (plan.wishes.length === 0) return top + TYPE.body * scale;
  const size = TYPE.body * scale;
  let y = top + size;
  tagged(canvas, 'H2', {}, () => setLine(canvas, words.wishes, margin, y, { size: size * 1.1, bold: true }));
  for (const outcome of plan.wishes) {
    y += size * LEADING * 1.1;
    const said = words.wish(outcome, (track) => nameOf(plan.tracks[track], canvas.style));
    const text = `${said}: ${outcome.kept ? words.kept : words.notKept}.`;
    tagged(canvas, 'P', {}, () => setLine(canvas, text, margin, y, { size }));
  }
  return y + size * 2.2;
}

/** How a record comes in: change of tempo, which of its bars on which bar of the one before. */
function comesIn({ steps }: RunningOrder, place: number, { style }: Canvas): string {
  const match = place === 0 ? null : steps[place - 1].match;
  const plan = match?.plans[0];
  if (match == null || plan === undefined) return '';
  const words = wordsFor(style);
  if (plan.kind === 'cut') return words.atTheEnd;
  const change = (match.tempo.rateB - 1) * 100;
  const sign = change >= 0 ? '+' : '−';
  const percent = `${sign}${style.words.number(Math.abs(change), 1, 'fixed')} %`;
  return `${words.onBar(plan.start.b.bar, plan.start.a.bar)}, ${percent}`;
}

/** Hours and minutes. */
function hours(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return `${Math.floor(minutes / 60)}:${`${minutes % 60}`.padStart(2, '0')} h`;
}
