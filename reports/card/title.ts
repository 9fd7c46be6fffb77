import { clock, type TrackAnalysis } from '../../src/index.js';
import { setLine, tagged, type Canvas } from '../layout/canvas.js';
import { fitText, type FittedText } from '../layout/fit.js';
import { printable } from '../layout/fonts.js';
import type { Paper } from '../layout/paper.js';
import { TYPE } from '../layout/type.js';
import type { Typesetter } from '../layout/typesetter.js';
import { artistOf, keyWords, titleOf } from './facts.js';
import { tempoWords } from './tempo.js';

/** The first lines of a card: title and tempo on one baseline, under them artist, key and length. */
export interface CardTitle {
  /** From the upper margin to the second baseline. */
  readonly height: number;
  /** What did not fit and must be said in full elsewhere. */
  readonly cut: readonly string[];
  readonly draw: (canvas: Canvas) => void;
}

/** Distance of the baselines of a title on two lines, and the height of capitals, as shares of the size. */
const TIGHT = 1.06;
const CAPITALS = 0.668;
/** Between title and tempo, as a share of body type. */
const APART = 1.2;

export function layoutTitle(analysis: TrackAnalysis, paper: Paper, type: Typesetter): CardTitle {
  const { margin, scale } = paper;
  const width = paper.width - 2 * margin;
  const small = TYPE.body * scale;
  const bold = (text: string, size: number) => type.measure(text, size, true);
  const regular = (text: string, size: number) => type.measure(text, size, false);
  const fit = (text: string, room: number, size: number, least: number, maxLines: number) =>
    fitText(text, { width: room, size: size * scale, least: least * scale, maxLines, measure: bold });
  const tempo = tempoWords(analysis);
  const figure = fit(tempo.figure, width * 0.5, TYPE.figure, TYPE.figureLeast, 2);
  const beside = Math.max(...figure.lines.map((line) => bold(line, figure.size))) + APART * small;
  const [fullTitle, fullArtist] = [printable(titleOf(analysis)), printable(artistOf(analysis))];
  const title = fit(fullTitle, width - beside, TYPE.title, TYPE.titleLeast, 2);
  const { beatsPerBar } = analysis.metre;
  const metre = beatsPerBar === 4 || analysis.bars.length === 0 ? '' : `${beatsPerBar} beats a bar`;
  const under = [tempo.unit, metre, keyWords(analysis), clock(analysis.source.durationSeconds, 0)]
    .filter((s) => s !== '')
    .join(' · ');
  const artist = fitText(fullArtist, {
    width: width - regular(under, small) - APART * small,
    size: small,
    least: small,
    maxLines: 1,
    measure: regular,
  });
  const rise = ({ lines, size }: FittedText) => (lines.length - 1) * size * TIGHT + size * CAPITALS;
  const first = Math.max(rise(title), rise(figure));
  const second = first + small * 1.5;

  const set = (canvas: Canvas, { lines, size }: FittedText, x: number, anchor: 'start' | 'end') =>
    lines.forEach((line, i) => {
      const y = margin + first - (lines.length - 1 - i) * size * TIGHT;
      setLine(canvas, line, x, y, { size, bold: true, anchor });
    });
  const draw = (canvas: Canvas): void => {
    const right = margin + width;
    tagged(canvas, 'H1', { actual: fullTitle }, () => set(canvas, title, margin, 'start'));
    if (fullArtist !== '') {
      tagged(canvas, 'P', { actual: fullArtist }, () =>
        setLine(canvas, artist.lines[0], margin, margin + second, { size: small, ink: 'muted' }),
      );
    }
    tagged(canvas, 'P', {}, () => {
      set(canvas, figure, right, 'end');
      setLine(canvas, under, right, margin + second, { size: small, anchor: 'end', ink: 'muted' });
    });
  };
  const cut = [...(title.cut ? [fullTitle] : []), ...(artist.cut ? [fullArtist] : [])];
  return { height: second, cut, draw };
}
