import type { TrackAnalysis } from '../../src/index.js';
import { describeLadder } from '../../src/ladder/index.js';
import { keyWords } from '../card/facts.js';
import { legendOf } from '../card/ladder.js';
import { trackName } from '../card/name.js';
import { mixInRoom, mixOutRoom } from '../card/room.js';
import { tempoWords } from '../card/tempo.js';
import { layoutTitle } from '../card/title.js';
import { blockLines, drawLines, type Block } from '../layout/blocks.js';
import { rule, setLine, tagged, type Canvas } from '../layout/canvas.js';
import { ladderInColumns } from '../layout/columns.js';
import { printable } from '../layout/printable.js';
import type { Paper } from '../layout/paper.js';
import { TYPE } from '../layout/type.js';
import type { Typesetter } from '../layout/typesetter.js';
import type { Style } from '../theme/index.js';
import { drawColumns, type LessonPlan } from './single.js';

/** Shares of the width: each ladder, the words, and the gaps between. */
const LADDER_SHARE = 0.385;
const WORDS_SHARE = 0.18;
const APART = (1 - 2 * LADDER_SHARE - WORDS_SHARE) / 2;
/** The names of the two in the table. */
const SIGNS = ['A', 'B'] as const;

/** Lays out two tracks side by side: a ladder each, and what sets them apart. */
export function planComparison(
  tracks: readonly [TrackAnalysis, TrackAnalysis],
  paper: Paper,
  type: Typesetter,
  style: Style,
): LessonPlan {
  const { margin, height, scale } = paper;
  const inner = paper.width - 2 * margin;
  const width = inner * LADDER_SHARE;
  const sign = TYPE.title * scale;
  const half: Paper = { width: width - sign * 1.2, height, margin: 0, scale: scale * 0.85 };
  const titles = tracks.map((track) => layoutTitle(track, half, type, style));
  const titleHeight = Math.max(...titles.map((t) => t.height));
  const legend = legendOf(tracks[0], { paper, type, style, back: false });
  const legendTop = height - margin - legend.height;
  const ruleAt = margin + titleHeight + 5 * scale;
  const bodyTop = ruleAt + 6 * scale;
  const room = { width, height: legendTop - 6 * scale - bodyTop, scale: scale * 0.9, most: 2 };
  const ladders = tracks.map((track) => ladderInColumns(track, room, type, style));
  const lefts = [margin, margin + width + inner * APART];
  const wordsLeft = margin + inner * (1 - WORDS_SHARE);
  const lines = blockLines(comparisonBlocks(tracks, style), inner * WORDS_SHARE, scale, type.measure);
  const count = Math.max(...ladders.map((l) => l.pages));
  const pages = Array.from({ length: count }, (_, page) => (canvas: Canvas): void => {
    tracks.forEach((_track, i) => {
      const left = lefts[i];
      tagged(canvas, 'P', {}, () =>
        setLine(canvas, SIGNS[i], left, margin + sign * 0.7, { size: sign, bold: true, ink: 'accent' }),
      );
      titles[i].draw({ ...canvas, x: canvas.x + left + sign * 1.2, y: canvas.y + margin });
      rule(canvas, left, left + width, ruleAt, 0.9 * scale);
      drawColumns(canvas, ladders[i], page, left, bodyTop);
    });
    if (page === 0) drawLines(canvas, lines, wordsLeft, margin - 6 * scale);
    rule(canvas, margin, margin + inner, legendTop - 3 * scale, 0.5 * scale);
    legend.draw(canvas, margin, legendTop);
  });
  const names = tracks.map((t) => printable(trackName(t, style)));
  return {
    title: style.print.documents.comparison(names[0], names[1]),
    description: tracks.map((_t, i) => `${SIGNS[i]}: ${describeLadder(ladders[i].geometry, style.ladder)}`).join(' '),
    pages,
  };
}

function comparisonBlocks(tracks: readonly TrackAnalysis[], style: Style): readonly Block[] {
  const { print, words } = style;
  const { rows, compared, none, places, of, at } = {
    ...print.lesson,
    places: (n: number) => print.lesson.places(n),
    of: (bars: number, beats: number) => print.lesson.of(bars, beats),
    at: (bar: number, time: string) => print.lesson.at(bar, time),
  };
  const room = (found: { readonly bars: number } | null) => (found === null ? none : words.bars(found.bars));
  const facts: readonly (readonly [string, (track: TrackAnalysis) => string])[] = [
    [rows.tempo, (t) => tempoWords(t, style).figure],
    [rows.key, (t) => keyWords(t, style)],
    [rows.length, (t) => words.clock(t.source.durationSeconds, 0)],
    [rows.phrase, (t) => of(t.phraseBars, t.phraseBars * t.metre.beatsPerBar)],
    [rows.mixIn, (t) => room(mixInRoom(t))],
    [rows.mixOut, (t) => room(mixOutRoom(t))],
    [
      rows.drop,
      (t) => {
        const drop = t.sections.find((s) => s.function === 'drop');
        return drop === undefined ? none : at(drop.startBar, words.clock(drop.start));
      },
    ],
    [rows.regular, (t) => `${t.phrases.filter((p) => p.regular).length} / ${t.phrases.length}`],
    [rows.breaks, (t) => (t.irregularities.length === 0 ? none : places(t.irregularities.length))],
  ];
  return [
    { kind: 'heading', text: compared },
    ...facts.flatMap(([name, value]): Block[] => [
      { kind: 'heading', text: name },
      ...tracks.map((t, i): Block => ({ kind: 'paragraph', text: `${SIGNS[i]}  ${printable(value(t))}` })),
    ]),
  ];
}
