import { printTransitions } from '../../../reports/index.js';
import {
  MATCH_VERSION,
  matchTracks,
  TEMPO_CHANGES,
  type MatchOptions,
  type MatchPlan,
  type TrackMatch,
} from '../../matching/index.js';
import type { TrackAnalysis } from '../../track/index.js';
import {
  changeWords,
  doubtWord,
  matchWordsOf,
  isOpening,
  onTheOne,
  planOpening,
  startSentence,
  wordsOf,
  type Language,
} from '../../wording/index.js';
import type { AnalysisArguments } from '../arguments.js';
import { EXIT, type ExitCode } from '../exit-codes.js';
import { hasStyle, printable, say, type Io } from '../io.js';
import { languageOption, numberOption, wordOption } from '../options.js';
import { checkOutputFile, PDF_KIND } from '../output-file.js';
import { wrapped, wrappedTable } from '../paragraphs.js';
import { analyseTwo, calledSo } from '../two-tracks.js';

export type MatchArguments = AnalysisArguments & {
  readonly json?: boolean;
  readonly language?: string;
  readonly change?: string;
  readonly fader?: string;
  readonly keyLock?: boolean;
  readonly longest?: string;
  readonly notBefore?: string;
  readonly plans?: string;
  readonly out?: string;
};

const USUAL_WIDTH = 80;
const WIDEST = 100;

/** `barwise match A B`: where to start B on A's count. */
export async function matchCommand(a: string, b: string, given: MatchArguments, io: Io): Promise<ExitCode> {
  const language = languageOption(given.language);
  const options = matchOptions(given);
  if (given.out !== undefined) await checkOutputFile(given.out, PDF_KIND);
  const tracks = await analyseTwo([a, b], given, io);
  const match = matchTracks(...tracks, options);
  if (given.json) io.stdout.write(`${JSON.stringify(asData(tracks, match, language))}\n`);
  else io.stdout.write(matchText(tracks, match, language, io));
  const [plan] = match.plans;
  if (given.out !== undefined && plan !== undefined) {
    await printTransitions([{ a: tracks[0], b: tracks[1], match, plan }], given.out, { language, signal: io.signal });
    say(io, given.out);
  }
  return EXIT.done;
}

/** Reads what can be said about a match on the command line. Throws BarwiseError `bad-option`. */
export function matchOptions(given: MatchArguments): MatchOptions {
  const range = numberOption(given.fader, '--fader', 0.1, 100);
  const longest = numberOption(given.longest, '--longest', 4, 256);
  const notBefore = numberOption(given.notBefore, '--not-before', 1, 100_000);
  const plans = numberOption(given.plans, '--plans', 1, 50);
  return {
    ...(given.change === undefined ? {} : { change: wordOption(given.change, '--change', TEMPO_CHANGES) }),
    ...(range === undefined ? {} : { range: range / 100 }),
    ...(longest === undefined ? {} : { longest }),
    ...(notBefore === undefined ? {} : { notBefore }),
    ...(plans === undefined ? {} : { plans }),
    ...(given.keyLock ? { keyLock: true } : {}),
  };
}

/** Everything as data, with the sentences beside the kinds. */
function asData([a, b]: readonly [TrackAnalysis, TrackAnalysis], match: TrackMatch, language: Language) {
  const words = matchWordsOf(language);
  const { remark } = words;
  const refer = ({ source }: TrackAnalysis) => ({ file: source.file, audioDigest: source.audioDigest });
  return {
    schemaVersion: MATCH_VERSION,
    a: refer(a),
    b: refer(b),
    language,
    ...match,
    plans: match.plans.map((plan) => ({
      ...plan,
      sentence: startSentence(plan, calledSo(b), words),
      reasons: plan.reasons.map((r) => ({ ...r, says: remark(r) })),
      cautions: plan.cautions.map((r) => ({ ...r, says: remark(r) })),
    })),
    obstacles: match.obstacles.map((r) => ({ ...r, says: remark(r) })),
  };
}

function matchText(
  [a, b]: readonly [TrackAnalysis, TrackAnalysis],
  match: TrackMatch,
  language: Language,
  io: Io,
): string {
  const words = matchWordsOf(language);
  const width = Math.min(io.stdout.columns ?? USUAL_WIDTH, WIDEST);
  const bold = (text: string) => (hasStyle(io.stdout, io.env) ? `\u001b[1m${text}\u001b[22m` : text);
  const lines = (text: string, indent = 2, mark = '') => wrapped(printable(text), width, indent, mark);
  const said = (remarks: MatchPlan['reasons'], title: string) =>
    remarks.length === 0 ? '' : `\n${bold(title)}\n${remarks.map((r) => lines(words.remark(r), 4, '  –')).join('')}`;
  const [best, ...others] = match.plans;
  const head = `${bold(printable(`A: ${calledSo(a)}`))}\n${bold(printable(`B: ${calledSo(b)}`))}\n`;
  if (best === undefined) return `${head}${match.obstacles.map((r) => lines(words.remark(r), 0)).join('')}`;
  const opening = planOpening(best, 'B', words);
  const against = best.cautions.filter((r) => !isOpening(r));
  return [
    head,
    match.obstacles.length > 0 ? `\n${match.obstacles.map((r) => lines(words.remark(r), 0)).join('')}` : '',
    `\n${opening.map((text) => lines(text, 0)).join('')}`,
    said(best.reasons, words.headings.why),
    said(against, words.headings.against),
    best.kind === 'blend' ? `\n${bold(words.headings.ones)}\n${stepTable(best, language, io, width)}` : '',
    others.length > 0 ? `\n${bold(words.headings.others)}\n` : '',
    ...others.map((plan, i) => otherText(plan, i + 2, language, lines)),
  ].join('');
}

/** Another plan in a few lines: where it starts, what meets, what stands against it. */
function otherText(
  plan: MatchPlan,
  number: number,
  language: Language,
  lines: (text: string, indent: number, mark?: string) => string,
): string {
  const words = matchWordsOf(language);
  const meets = plan.reasons.filter((r) => r.kind === 'moments-meet').map(words.remark);
  const told = ['layer-clash', 'layer-may-clash', 'layer-unjudged', 'ones-apart'];
  const clashes = plan.cautions.filter(({ kind }) => told.includes(kind)).map(words.remark);
  const sure = doubtWord(plan.confidence.value, language);
  return lines([startSentence(plan, 'B', words), ...meets, ...clashes, `(${sure})`].join(' '), 4, `${number}.`);
}

function stepTable(plan: MatchPlan, language: Language, io: Io, width: number): string {
  const words = wordsOf(language);
  const { headings, actions, nothing } = matchWordsOf(language);
  const happens = (one: MatchPlan['steps'][number]['a']): string => {
    if (one === null) return '';
    const text =
      one.section === null
        ? changeWords(one.changes, language).join(', ')
        : onTheOne(one.section, one.changes, language);
    return text === '' ? (one.phraseStarts ? '·' : '') : text;
  };
  const rows = plan.steps.map(({ a, b, actions: todo, barsLeft, timeLeft }) => [
    a === null ? '–' : `${a.bar}`,
    a === null ? '–' : words.clock(a.time),
    b === null ? '–' : `${b.bar}`,
    `${barsLeft}`,
    words.clock(timeLeft, 0),
    [
      todo.map((t) => actions[t].toUpperCase()).join(', '),
      happens(a) === '' ? '' : `A: ${happens(a)}`,
      happens(b) === '' ? '' : `B: ${happens(b)}`,
    ]
      .filter((text) => text !== '' && !/^[AB]: ·$/.test(text))
      .join('; ') || nothing,
  ]);
  return wrappedTable(
    ['A', words.story.columns.time, 'B', headings.barsLeft, headings.timeLeft, words.story.columns.happens],
    rows,
    {
      width,
      right: [0, 1, 2, 3, 4],
      bold: hasStyle(io.stdout, io.env),
      gapBefore: plan.steps.map((s) => s.actions.length > 0),
    },
  );
}
