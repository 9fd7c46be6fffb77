import type { TrackAnalysis } from '../../src/index.js';
import { setLine, tagged, type Canvas } from '../layout/canvas.js';
import { fitText, type FittedText } from '../layout/fit.js';
import { printable } from '../layout/printable.js';
import { joinPieces } from '../layout/join.js';
import type { Paper } from '../layout/paper.js';
import { SMALLEST_TYPE, TYPE } from '../layout/type.js';
import type { Typesetter } from '../layout/typesetter.js';
import type { Style } from '../theme/index.js';
import { keyWords } from './facts.js';
import { artistOf, titleOf } from './name.js';
import { tempoWords } from './tempo.js';

/** The first lines of a card: title and tempo on one baseline, under them artist, key and length. */
export interface CardTitle {
  /** From the upper margin to the last baseline. */
  readonly height: number;
  /** What did not fit and must be said in full elsewhere. */
  readonly cut: readonly string[];
  readonly draw: (canvas: Canvas) => void;
}

/** Distance of the baselines of a title on several lines, and the height of capitals, as shares of the size. */
const TIGHT = 1.06;
const CAPITALS = 0.668;
/** Between title and tempo, as a share of body type. */
const APART = 1.2;
/** Distance of the lines under the title, as a share of their size. */
const UNDER = 1.25;

export function layoutTitle(analysis: TrackAnalysis, paper: Paper, type: Typesetter, style: Style): CardTitle {
  const { margin, scale } = paper;
  const width = paper.width - 2 * margin;
  const small = TYPE.body * scale;
  const bold = (text: string, size: number) => type.measure(text, size, true);
  const regular = (text: string, size: number) => type.measure(text, size, false);
  const fit = (text: string, room: number, size: number, least: number, maxLines: number) =>
    fitText(text, { width: room, size: size * scale, least: least * scale, maxLines, measure: bold });
  const tempo = tempoWords(analysis, style);
  const figure = fit(tempo.figure, width * 0.5, TYPE.figure, TYPE.figureLeast, 2);
  const beside = Math.max(...figure.lines.map((line) => bold(line, figure.size))) + APART * small;
  const [fullTitle, fullArtist] = [printable(titleOf(analysis, style)), printable(artistOf(analysis))];
  const large = fit(fullTitle, width - beside, TYPE.title, TYPE.titleLeast, 2);
  const title = large.cut ? fit(fullTitle, width - beside, TYPE.heading, TYPE.heading, 3) : large;
  const under = joinPieces(underTempo(analysis, style, tempo.unit), (line) => regular(line, small) <= width);
  const besideUnder = width - regular(under.at(-1) ?? '', small) - APART * small;
  const alone = under.length > 1 || regular(fullArtist, small) > besideUnder;
  const artist = fitText(fullArtist, {
    width: alone ? width : besideUnder,
    size: small,
    least: Math.max(TYPE.small * scale, SMALLEST_TYPE),
    maxLines: alone ? 2 : 1,
    measure: regular,
  });
  const rise = ({ lines, size }: FittedText) => (lines.length - 1) * size * TIGHT + size * CAPITALS;
  const first = Math.max(rise(title), rise(figure));
  const second = first + small * 1.5;
  const artistLines = fullArtist === '' ? [] : artist.lines;
  const artistFrom = second + (alone ? under.length * small * UNDER : 0);
  const height = Math.max(
    second + (under.length - 1) * small * UNDER,
    artistLines.length === 0 ? 0 : artistFrom + (artistLines.length - 1) * small * UNDER,
  );

  const set = (canvas: Canvas, { lines, size }: FittedText, x: number, anchor: 'start' | 'end') =>
    lines.forEach((line, i) => {
      const y = margin + first - (lines.length - 1 - i) * size * TIGHT;
      setLine(canvas, line, x, y, { size, bold: true, anchor });
    });
  const draw = (canvas: Canvas): void => {
    const right = margin + width;
    tagged(canvas, 'H1', { actual: fullTitle }, () => set(canvas, title, margin, 'start'));
    if (artistLines.length > 0) {
      tagged(canvas, 'P', { actual: fullArtist }, () =>
        artistLines.forEach((line, i) =>
          setLine(canvas, line, margin, margin + artistFrom + i * small * UNDER, { size: artist.size, ink: 'muted' }),
        ),
      );
    }
    tagged(canvas, 'P', {}, () => {
      set(canvas, figure, right, 'end');
      under.forEach((line, i) =>
        setLine(canvas, line, right, margin + second + i * small * UNDER, { size: small, anchor: 'end', ink: 'muted' }),
      );
    });
  };
  const cut = [...(title.cut ? [fullTitle] : []), ...(artist.cut ? [fullArtist] : [])];
  return { height, cut, draw };
}

/** What stands under the tempo: its unit, an unusual metre, the key, the length. */
export function underTempo(analysis: TrackAnalysis, style: Style, unit: string): readonly string[] {
  const { words } = style;
  const { beatsPerBar } = analysis.metre;
  const metre = beatsPerBar === 4 || analysis.bars.length === 0 ? '' : words.card.beatsABar(beatsPerBar);
  const length = words.clock(analysis.source.durationSeconds, 0);
  return [unit, metre, keyWords(analysis, style), length].filter((s) => s !== '');
}
