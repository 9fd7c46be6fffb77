import { countRows, tellTrack, type CountRow, type TrackAnalysis, type TrackStory } from '../../track/index.js';
import { wordsOf, type Language } from '../../wording/index.js';
import { analyse } from '../analyse.js';
import type { AnalysisArguments } from '../arguments.js';
import { exitCodeFor, type ExitCode } from '../exit-codes.js';
import { hasStyle, printable, type Io } from '../io.js';
import { languageOption } from '../options.js';
import { wrapped, wrappedTable } from '../paragraphs.js';
import { tabSeparated } from '../table.js';

export type ExplainArguments = AnalysisArguments & {
  readonly counts?: boolean;
  readonly json?: boolean;
  readonly language?: string;
};

const USUAL_WIDTH = 80;
/** Longer lines are hard to read. */
const WIDEST = 100;

/** `barwise explain FILE…`: tracks told in plain words, or bar by bar. */
export async function explainCommand(paths: readonly string[], given: ExplainArguments, io: Io): Promise<ExitCode> {
  const language = languageOption(given.language);
  const crate = await analyse(paths, given, io);
  const { tracks } = crate;
  if (given.json) {
    const told = tracks.map((t) => asData(t, language));
    io.stdout.write(`${JSON.stringify(paths.length === 1 && told.length === 1 ? told[0] : { tracks: told })}\n`);
  } else {
    const print = given.counts ? countsText : storyText;
    io.stdout.write(tracks.map((track) => print(track, language, io)).join('\n\n'));
  }
  return exitCodeFor(crate);
}

function asData(analysis: TrackAnalysis, language: Language) {
  const { file, audioDigest } = analysis.source;
  return { file, audioDigest, language, ...tellTrack(analysis, language), counts: countRows(analysis, language) };
}

function storyText(analysis: TrackAnalysis, language: Language, io: Io): string {
  const story = tellTrack(analysis, language);
  const { headings } = wordsOf(language).story;
  const width = Math.min(io.stdout.columns ?? USUAL_WIDTH, WIDEST);
  const bold = (text: string) => (hasStyle(io.stdout, io.env) ? `\u001b[1m${text}\u001b[22m` : text);
  const lines = (text: string, indent: number, mark = '') => wrapped(printable(text), width, indent, mark);
  const heading = (text: string) => `\n${bold(text)}\n`;
  return [
    `${bold(printable(story.title))}\n`,
    ...story.opening.map((text) => lines(text, 0)),
    ...list(story.corrected, headings.corrected, heading, (text) => lines(text, 2)),
    heading(headings.told),
    ...story.sections.flatMap(({ head, items }) => [lines(head, 0), ...items.map((text) => lines(text, 4))]),
    heading(headings.breaks),
    ...(story.breaks.length === 0
      ? [lines(story.noBreaks, 0)]
      : story.breaks.map((b, i) => breakText(b, i + 1, lines))),
    heading(headings.doubt),
    ...story.doubts.map((text) => lines(text, 0)),
  ].join('');
}

function list(
  texts: readonly string[],
  title: string,
  heading: (text: string) => string,
  lines: (text: string) => string,
): string[] {
  return texts.length === 0 ? [] : [heading(title), ...texts.map(lines)];
}

function breakText(
  { sentence, evidence, alternative, doubt }: TrackStory['breaks'][number],
  number: number,
  lines: (text: string, indent: number, mark?: string) => string,
): string {
  const more = [evidence, alternative].filter((text) => text !== null);
  return [lines(`${sentence} (${doubt})`, 3, `${number}.`), ...more.map((text) => lines(text, 3))].join('');
}

/** A table that nothing is cut from: what happens goes on under itself. */
function countsText(analysis: TrackAnalysis, language: Language, io: Io): string {
  const words = wordsOf(language);
  const { columns } = words.story;
  const head = [columns.bar, columns.time, columns.count, columns.phrase, columns.section, columns.happens];
  const cells = (row: CountRow, glue: string) => [
    `${row.bar}`,
    words.clock(row.time),
    row.count,
    words.story.inPhrase(row.phrase, row.phraseBar, row.phraseBars),
    row.section,
    row.happens.join(glue),
  ];
  const rows = countRows(analysis, language);
  if (io.stdout.isTTY !== true)
    return tabSeparated(
      head,
      rows.map((row) => cells(row, '; ')),
    );
  const marks = rows.map((row) => row.phraseBar === 1);
  return wrappedTable(
    head,
    rows.map((row) => cells(row, '; ').map(printable)),
    { width: io.stdout.columns ?? USUAL_WIDTH, right: [0, 1], bold: hasStyle(io.stdout, io.env), gapBefore: marks },
  );
}
