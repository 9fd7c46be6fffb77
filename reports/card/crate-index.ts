import { queryCrate, type TrackAnalysis } from '../../src/index.js';
import { blockLines, drawLines, pageOfLines, type Block } from '../layout/blocks.js';
import { paintPaper } from '../layout/canvas.js';
import type { PieceDocument } from '../layout/document.js';
import { printable } from '../layout/printable.js';
import { fitText } from '../layout/fit.js';
import type { Paper } from '../layout/paper.js';
import { TYPE } from '../layout/type.js';
import type { Style } from '../theme/index.js';
import { keyWords } from './facts.js';
import { trackName } from './name.js';
import { tempoWords } from './tempo.js';

/** By what an index can be sorted. @public */
export const INDEX_ORDERS = ['tempo', 'key', 'name'] as const;
/** One of `INDEX_ORDERS`. @public */
export type IndexOrder = (typeof INDEX_ORDERS)[number];

/** The tracks in the order of an index: by tempo, round the circle of fifths, or by name. */
export function inOrder(analyses: readonly TrackAnalysis[], order: IndexOrder): readonly TrackAnalysis[] {
  return queryCrate(analyses, { order });
}

const SHARES = { number: 0.09, tempo: 0.16, name: 0.46, key: 0.19, length: 0.1 } as const;

/** Prints an index of cards, numbered as they come, and gives its pages. */
export function drawIndex(
  analyses: readonly TrackAnalysis[],
  order: IndexOrder,
  { piece, paper, style }: { readonly piece: PieceDocument; readonly paper: Paper; readonly style: Style },
): number {
  const { margin, scale, width, height } = paper;
  const { print, words } = style;
  const inner = width - 2 * margin;
  const size = TYPE.body * scale;
  const { columns } = print.index;
  const cut = (text: string, share: number) =>
    fitText(text, {
      width: share * inner - size,
      size,
      least: Math.max(TYPE.small, size * 0.9),
      maxLines: 1,
      measure: (t) => piece.type.measure(t, size, false),
    }).lines[0];
  const rows = analyses.map((analysis, i) => {
    const { figure } = tempoWords(analysis, style);
    return [
      `${i + 1}`,
      cut(figure, SHARES.tempo),
      cut(printable(trackName(analysis, style)), SHARES.name),
      cut(keyWords(analysis, style), SHARES.key),
      words.clock(analysis.source.durationSeconds, 0),
    ];
  });
  const blocks: readonly Block[] = [
    { kind: 'heading', text: print.index[order], level: 1 },
    {
      kind: 'table',
      columns: [
        { name: columns.number, share: SHARES.number, anchor: 'end' },
        { name: columns.tempo, share: SHARES.tempo, anchor: 'end' },
        { name: columns.name, share: SHARES.name, anchor: 'start' },
        { name: columns.key, share: SHARES.key, anchor: 'start' },
        { name: columns.length, share: SHARES.length, anchor: 'end' },
      ],
      rows,
    },
  ];
  const lines = blockLines(blocks, inner, scale, piece.type.measure);
  const { surface } = piece;
  const section = surface.open(piece.root, 'Sect', print.index[order]);
  let pages = 0;
  for (let from = 0; from < lines.length; pages++) {
    const room = height - 2 * margin;
    const page = pageOfLines(lines, from, room);
    piece.addPage(paper, 0);
    if (pages === 0) piece.doc.outline.addItem(print.index[order]);
    const canvas = { surface, style, section, x: 0, y: 0 };
    paintPaper(canvas, paper, 0);
    drawLines(canvas, page.lines, margin, margin);
    from = page.next;
  }
  surface.close(section);
  return pages;
}
