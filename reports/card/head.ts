import type { TrackAnalysis } from '../../src/index.js';
import { rule, setLine, tagged, type Canvas } from '../layout/canvas.js';
import type { Paper } from '../layout/paper.js';
import { LEADING, TYPE } from '../layout/type.js';
import type { Typesetter } from '../layout/typesetter.js';
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

/** Where the three facts start, as shares of the width. */
const FACT_COLUMNS = [0, 0.25, 0.57];

export function layoutHead(analysis: TrackAnalysis, paper: Paper, type: Typesetter): CardHead {
  const { margin, scale } = paper;
  const width = paper.width - 2 * margin;
  const title = layoutTitle(analysis, paper, type);
  const size = TYPE.body * scale;
  const ruleAt = margin + title.height + size * 0.65;
  const factsTop = ruleAt + 3.5 * scale;
  const doubtTop = factsTop + (TYPE.small * 2.55 + TYPE.value * 1.12) * scale;
  const lines = joinRemarks(doubts(analysis), (line) => type.measure(line, size, true) <= width);
  const height = doubtTop + lines.length * size * LEADING + 5 * scale;
  const draw = (canvas: Canvas): void => {
    title.draw(canvas);
    rule(canvas, margin, margin + width, ruleAt, 0.9 * scale);
    mixFacts(analysis).forEach((fact, i) => drawFact(canvas, fact, margin + FACT_COLUMNS[i] * width, factsTop, scale));
    if (lines.length === 0) return;
    tagged(canvas, 'P', {}, () =>
      lines.forEach((line, i) =>
        setLine(canvas, line, margin, doubtTop + (i + 0.95) * size * LEADING, { size, bold: true, ink: 'accent' }),
      ),
    );
  };
  return { height, cut: title.cut, draw };
}

function drawFact(canvas: Canvas, fact: Fact, x: number, top: number, scale: number): void {
  const [small, value] = [TYPE.small * scale, TYPE.value * scale];
  const valueAt = top + small + value * 1.12;
  tagged(canvas, 'P', {}, () => {
    setLine(canvas, fact.name, x, top + small, { size: small, ink: 'muted' });
    setLine(canvas, fact.value, x, valueAt, { size: value, bold: true });
    if (fact.detail !== '') setLine(canvas, fact.detail, x, valueAt + small * 1.3, { size: small });
  });
}

/** Joins remarks with dots into as few lines as they need. */
function joinRemarks(remarks: readonly string[], fits: (line: string) => boolean): readonly string[] {
  const lines: string[] = [];
  for (const remark of remarks) {
    const last = lines.at(-1);
    const longer = last === undefined ? remark : `${last} · ${remark}`;
    if (last !== undefined && fits(longer)) lines[lines.length - 1] = longer;
    else lines.push(remark);
  }
  return lines;
}
