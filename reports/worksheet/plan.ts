import type { TrackAnalysis } from '../../src/index.js';
import { breakAtSpaces, type LadderWords } from '../../src/ladder/index.js';
import { drawLadder, legendOf } from '../card/ladder.js';
import { artistOf, titleOf } from '../card/name.js';
import { rule, setLine, tagged, type Canvas } from '../layout/canvas.js';
import { ladderInColumns } from '../layout/columns.js';
import { fitText } from '../layout/fit.js';
import { printable } from '../layout/printable.js';
import type { Paper } from '../layout/paper.js';
import { LEADING, SMALLEST_TYPE, TYPE } from '../layout/type.js';
import type { Typesetter } from '../layout/typesetter.js';
import type { Style } from '../theme/index.js';
import { blankTrack } from './blank.js';
import type { Level, Question } from './questions.js';

/** What a page of a worksheet is laid out with. */
export interface WorksheetSetting {
  readonly paper: Paper;
  readonly type: Typesetter;
  readonly style: Style;
  readonly level: Level;
}

type Draw = (canvas: Canvas) => void;

/** Room for an answer by hand, in points. */
const ANSWER_LINE = 22;
/** The ladder is never lower than this share of a page. */
const LEAST_LADDER = 0.28;

/** The pages to be filled in. */
export function planQuestions(track: TrackAnalysis, questions: readonly Question[], setting: WorksheetSetting) {
  const { style, level } = setting;
  const { worksheet } = style.print;
  const bare: LadderWords = {
    ...style.ladder,
    time: () => '',
    bar: (bar, doubtful) => (level === 3 ? '' : style.ladder.bar(bar, doubtful)),
  };
  const head = layoutHead(
    track,
    `${worksheet.title}, ${worksheet.level(level)}`,
    setting,
    worksheet.instructions[level],
  );
  const list = layoutList(
    questions.map((q) => ({ text: q.ask, answer: null })),
    setting,
  );
  return assemble(blankTrack(track), head, list, setting, { words: bare, lines: true });
}

/** The pages with the answers, and the ladder as it is. */
export function planKey(track: TrackAnalysis, questions: readonly Question[], setting: WorksheetSetting) {
  const { worksheet } = setting.style.print;
  const head = layoutHead(track, `${worksheet.key}, ${worksheet.level(setting.level)}`, setting, null);
  const list = layoutList(
    questions.map((q) => ({ text: q.ask, answer: q.answer })),
    setting,
  );
  return assemble(track, head, list, setting, { words: setting.style.ladder, lines: false });
}

interface Stack {
  readonly height: number;
  readonly draw: (canvas: Canvas, top: number) => void;
}

function assemble(
  track: TrackAnalysis,
  head: Stack,
  list: Stack,
  setting: WorksheetSetting,
  look: { readonly words: LadderWords; readonly lines: boolean },
): readonly Draw[] {
  const { paper, type, style } = setting;
  const { margin, scale, width, height } = paper;
  const legend = legendOf(track, { paper, type, style, back: false });
  const caution = layoutCaution(setting);
  const bottom = height - margin - caution.height;
  const apart = 10 * scale;
  const ladderTop = margin + head.height + apart * 0.6;
  const left = bottom - ladderTop - legend.height - list.height - apart * 2.2;
  const roomy = Math.max(left, height * LEAST_LADDER);
  const room = { width: width - 2 * margin, height: roomy, scale: 1.12, most: 2, count: false, words: look.words };
  const ladder = ladderInColumns(track, room, type, style);
  const { geometry, columns, pitch, pages } = ladder;
  const used = (page: number) =>
    Math.max(0, ...geometry.pages.slice(page * columns, (page + 1) * columns).map((p) => p.height));
  const lastTop = (page: number) => ladderTop + used(page) + apart + legend.height + apart * 0.8;
  const together = lastTop(pages - 1) + list.height <= bottom + 1;
  const count = pages + (together ? 0 : 1);
  return Array.from({ length: count }, (_, page) => (canvas: Canvas): void => {
    head.draw(canvas, margin);
    if (page < pages) {
      for (let c = 0; c < columns; c++) {
        const part = page * columns + c;
        if (part < geometry.pages.length) drawLadder(canvas, geometry, part, margin + c * pitch, ladderTop, look.words);
      }
      legend.draw(canvas, margin, ladderTop + used(page) + apart);
    }
    if (page === count - 1) list.draw(canvas, together ? lastTop(page) : ladderTop);
    caution.draw(canvas, bottom);
  });
}

function layoutHead(track: TrackAnalysis, what: string, setting: WorksheetSetting, intro: string | null): Stack {
  const { paper, type, style } = setting;
  const { margin, scale, width } = paper;
  const { worksheet } = style.print;
  const inner = width - 2 * margin;
  const [title, small] = [TYPE.title * scale, TYPE.body * scale];
  const bold = (text: string, size: number) => type.measure(text, size, true);
  const name = fitText(printable(titleOf(track, style)), {
    width: inner,
    size: title,
    least: TYPE.value * scale,
    maxLines: 2,
    measure: bold,
  });
  const artist = printable(artistOf(track));
  const top = small * 1.5;
  const nameBottom = top + name.lines.length * name.size * 1.1;
  const lineAt = nameBottom + (artist === '' ? 0 : small * 1.3) + 18 * scale;
  const broken = intro === null ? [] : breakAtSpaces(intro, (line) => type.measure(line, small, false) <= inner);
  const introTop = intro === null ? lineAt - 16 * scale : lineAt + 4 * scale;
  const height = introTop + broken.length * small * LEADING;
  const draw = (canvas: Canvas, from: number): void => {
    tagged(canvas, 'P', {}, () =>
      setLine(canvas, what, margin, from + small * 0.8, { size: small, ink: 'accent', bold: true }),
    );
    tagged(canvas, 'H1', { actual: printable(titleOf(track, style)) }, () =>
      name.lines.forEach((line, i) =>
        setLine(canvas, line, margin, from + top + (i + 0.85) * name.size * 1.1, { size: name.size, bold: true }),
      ),
    );
    if (artist !== '') {
      const line = fitText(artist, {
        width: inner,
        size: small,
        least: SMALLEST_TYPE,
        maxLines: 1,
        measure: (t, s) => type.measure(t, s, false),
      });
      tagged(canvas, 'P', { actual: artist }, () =>
        setLine(canvas, line.lines[0], margin, from + nameBottom + small, { size: line.size, ink: 'muted' }),
      );
    }
    if (intro === null) return;
    const y = from + lineAt - small * 0.6;
    const half = margin + inner * 0.62;
    tagged(canvas, 'P', {}, () => {
      setLine(canvas, worksheet.nameLine, margin, y, { size: small, ink: 'muted' });
      setLine(canvas, worksheet.dateLine, half, y, { size: small, ink: 'muted' });
    });
    const after = (text: string) => type.measure(`${text}  `, small, false);
    rule(canvas, margin + after(worksheet.nameLine), half - 12 * scale, y + 1.5, 0.5, 'muted');
    rule(canvas, half + after(worksheet.dateLine), margin + inner, y + 1.5, 0.5, 'muted');
    tagged(canvas, 'P', {}, () =>
      broken.forEach((line, i) =>
        setLine(canvas, line, margin, from + introTop + (i + 0.8) * small * LEADING, { size: small }),
      ),
    );
  };
  return { height, draw };
}

/** Questions with numbers, each with a line to write on, or with its answer. */
function layoutList(
  items: readonly { readonly text: string; readonly answer: string | null }[],
  { paper, type }: WorksheetSetting,
): Stack {
  const { margin, scale, width } = paper;
  const size = TYPE.body * scale;
  const indent = size * 2;
  const room = width - 2 * margin - indent;
  const leading = size * LEADING;
  const laid = items.map(({ text, answer }) => {
    const lines = breakAtSpaces(text, (line) => type.measure(line, size, false) <= room);
    const told = answer === null ? [] : breakAtSpaces(answer, (line) => type.measure(line, size, true) <= room);
    const height = (lines.length + told.length) * leading + (answer === null ? ANSWER_LINE : size * 0.6);
    return { lines, told, height };
  });
  const draw = (canvas: Canvas, top: number): void => {
    let y = top;
    laid.forEach(({ lines, told, height }, i) => {
      const from = y;
      tagged(canvas, 'P', {}, () => {
        setLine(canvas, `${i + 1}`, margin, from + size, { size, bold: true });
        lines.forEach((line, k) => setLine(canvas, line, margin + indent, from + size + k * leading, { size }));
        told.forEach((line, k) =>
          setLine(canvas, line, margin + indent, from + size + (lines.length + k) * leading, {
            size,
            bold: true,
            ink: 'accent',
          }),
        );
      });
      if (told.length === 0) rule(canvas, margin + indent, width - margin, from + height - 3, 0.4, 'muted');
      y += height;
    });
  };
  return { height: laid.reduce((sum, l) => sum + l.height, 0), draw };
}

/** The caution for the ears, in the smallest type, at the foot of every page. */
function layoutCaution({ paper, type, style }: WorksheetSetting): Stack {
  const { margin, width } = paper;
  const size = SMALLEST_TYPE;
  const lines = breakAtSpaces(
    style.print.worksheet.caution,
    (line) => type.measure(line, size, false) <= width - 2 * margin,
  );
  const height = (lines.length + 1) * size * LEADING;
  const draw = (canvas: Canvas, top: number): void =>
    tagged(canvas, 'P', {}, () =>
      lines.forEach((line, i) =>
        setLine(canvas, line, margin, top + (i + 1.8) * size * LEADING, { size, ink: 'muted' }),
      ),
    );
  return { height, draw };
}
