import { breakAtSpaces } from '../../src/ladder/index.js';
import type { TrackAnalysis } from '../../src/index.js';
import { rule, setLine, tagged, type Canvas } from '../layout/canvas.js';
import { joinPieces } from '../layout/join.js';
import type { Paper } from '../layout/paper.js';
import { LEADING, TYPE } from '../layout/type.js';
import type { Typesetter } from '../layout/typesetter.js';
import type { Style } from '../theme/index.js';
import { doubts, mixFacts, type Fact } from './facts.js';
import { layoutTitle } from './title.js';

/** The upper part of a card: title, tempo, key, length, the room for a mix, and what is not sure. */
export interface CardHead {
  /** From the upper edge of the paper. */
  readonly height: number;
  /** What did not fit and must be said in full elsewhere. */
  readonly cut: readonly string[];
  readonly draw: (canvas: Canvas) => void;
}

/** Least distance between two facts side by side, in small type. */
const FACTS_APART = 1.2;
/** What is left of the line goes between the facts, up to this much, in small type. */
const FACTS_WIDEST = 7;

export function layoutHead(analysis: TrackAnalysis, paper: Paper, type: Typesetter, style: Style): CardHead {
  const { margin, scale } = paper;
  const width = paper.width - 2 * margin;
  const title = layoutTitle(analysis, paper, type, style);
  const size = TYPE.body * scale;
  const ruleAt = margin + title.height + size * 0.65;
  const factsTop = ruleAt + 3.5 * scale;
  const facts = layoutFacts(mixFacts(analysis, style), width, scale, type);
  const doubtTop = factsTop + facts.height;
  const fits = (line: string) => type.measure(line, size, true) <= width;
  const lines = joinPieces(doubts(analysis, style), fits).flatMap((line) => breakAtSpaces(line, fits));
  const height = doubtTop + lines.length * size * LEADING + 5 * scale;
  const draw = (canvas: Canvas): void => {
    title.draw(canvas);
    rule(canvas, margin, margin + width, ruleAt, 0.9 * scale);
    facts.draw(canvas, margin, factsTop);
    if (lines.length === 0) return;
    tagged(canvas, 'P', {}, () =>
      lines.forEach((line, i) =>
        setLine(canvas, line, margin, doubtTop + (i + 0.95) * size * LEADING, { size, bold: true, ink: 'accent' }),
      ),
    );
  };
  return { height, cut: title.cut, draw };
}

/** Facts side by side, name over value over detail; one a line where the card is too narrow for that. */
function layoutFacts(facts: readonly Fact[], width: number, scale: number, type: Typesetter) {
  const [small, value] = [TYPE.small * scale, TYPE.value * scale];
  const widths = facts.map((f) =>
    Math.max(
      type.measure(f.name, small, false),
      type.measure(f.value, value, true),
      type.measure(f.detail, small, false),
    ),
  );
  const total = widths.reduce((sum, w) => sum + w, 0);
  const apart = Math.min(FACTS_WIDEST * small, (width - total) / (facts.length - 1));
  if (apart >= FACTS_APART * small) {
    const draw = (canvas: Canvas, left: number, top: number): void => {
      let x = left;
      facts.forEach((fact, i) => {
        drawStacked(canvas, fact, x, top, small, value);
        x += widths[i] + apart;
      });
    };
    return { height: small * 2.55 + value * 1.12, draw };
  }
  const nameWidth = Math.max(...facts.map((f) => type.measure(f.name, small, false))) + small;
  let height = 0;
  const places = facts.map((fact) => {
    const valueWidth = type.measure(fact.value, value, true);
    const detailAt = nameWidth + valueWidth + small * 0.8;
    const beside = detailAt + type.measure(fact.detail, small, false) <= width;
    const place = { y: height, detailX: beside ? detailAt : nameWidth, below: !beside && fact.detail !== '' };
    height += value * 1.15 + (place.below ? small * 1.2 : 0);
    return place;
  });
  const draw = (canvas: Canvas, left: number, top: number): void =>
    facts.forEach((fact, i) => {
      const { y, detailX, below } = places[i];
      const line = top + y + value;
      tagged(canvas, 'P', {}, () => {
        setLine(canvas, fact.name, left, line, { size: small, ink: 'muted' });
        setLine(canvas, fact.value, left + nameWidth, line, { size: value, bold: true });
        if (fact.detail === '') return;
        setLine(canvas, fact.detail, left + detailX, line + (below ? small * 1.2 : 0), { size: small });
      });
    });
  return { height: height + small * 0.3, draw };
}

function drawStacked(canvas: Canvas, fact: Fact, x: number, top: number, small: number, value: number): void {
  const valueAt = top + small + value * 1.12;
  tagged(canvas, 'P', {}, () => {
    setLine(canvas, fact.name, x, top + small, { size: small, ink: 'muted' });
    setLine(canvas, fact.value, x, valueAt, { size: value, bold: true });
    if (fact.detail !== '') setLine(canvas, fact.detail, x, valueAt + small * 1.3, { size: small });
  });
}
