import { basename } from 'node:path';
import { orderTracks, SHAPES, wishesKept, type OrderWishes, type RunningOrder } from '../../matching/index.js';
import type { TrackAnalysis } from '../../track/index.js';
import { BarwiseError } from '../../units/index.js';
import { sayMatch, wordsOf, type Language } from '../../wording/index.js';
import { printOrder } from '../../../reports/index.js';
import { analyse } from '../analyse.js';
import { exitCodeFor, type ExitCode } from '../exit-codes.js';
import { hasStyle, say, type Io } from '../io.js';
import { languageOption, numberOption, wordOption } from '../options.js';
import { checkOutputFile, PDF_KIND } from '../output-file.js';
import { tabSeparated, textTable, type Column } from '../table.js';
import { calledSo } from '../two-tracks.js';
import { matchOptions, type MatchArguments } from './match.js';

export type OrderArguments = MatchArguments & {
  readonly start?: string;
  readonly end?: string;
  readonly before?: readonly string[];
  readonly maxStep?: string;
  readonly shape?: string;
  readonly out?: string;
};

const COLUMNS: readonly Column[] = [
  { head: '#', align: 'right' },
  { head: 'Track', least: 14 },
  { head: 'BPM', align: 'right' },
  { head: 'Key' },
  { head: 'LUFS', align: 'right' },
  { head: 'Layers', align: 'right' },
  { head: 'Curve' },
  { head: 'How the next one comes in', least: 18 },
];
const USUAL_WIDTH = 80;
const CURVE = 8;

/** `barwise order DIR`: a path through a crate, with a plan for every step. */
export async function orderCommand(paths: readonly string[], given: OrderArguments, io: Io): Promise<ExitCode> {
  const language = languageOption(given.language);
  const options = matchOptions(given);
  const step = numberOption(given.maxStep, '--max-step', 0.01, 200);
  const shape = given.shape === undefined ? undefined : wordOption(given.shape, '--shape', SHAPES);
  if (given.out !== undefined) await checkOutputFile(given.out, PDF_KIND);
  const crate = await analyse(paths, given, io);
  const { tracks } = crate;
  if (tracks.length === 0) return exitCodeFor(crate);
  const wishes: OrderWishes = {
    ...(given.start === undefined ? {} : { start: trackNamed(given.start, tracks) }),
    ...(given.end === undefined ? {} : { end: trackNamed(given.end, tracks) }),
    before: (given.before ?? []).map((text) => pairNamed(text, tracks)),
    ...(step === undefined ? {} : { largestStep: step }),
    ...(shape === undefined ? {} : { shape }),
  };
  const order = orderTracks(tracks, { ...options, wishes });
  io.stdout.write(given.json ? asJson(order, tracks, wishes) : asText(order, tracks, language, io));
  const missed = order.steps.filter((s) => !s.withinStep).length;
  if (missed > 0)
    say(io, `${missed} of ${order.steps.length} steps are larger than ${step} BPM: no order avoids all of them.`);
  if (given.out !== undefined) {
    await printOrder(order, tracks, given.out, { wishes, language, signal: io.signal });
    say(io, given.out);
  }
  return exitCodeFor(crate);
}

/** A track by its number in the crate's list, its title or a part of its file's name. */
function trackNamed(text: string, tracks: readonly TrackAnalysis[]): number {
  const wanted = text.toLowerCase();
  const exact = tracks.findIndex((t) =>
    [calledSo(t), basename(t.source.file)].some((name) => name.toLowerCase() === wanted),
  );
  if (exact >= 0) return exact;
  const found = tracks.flatMap((t, i) =>
    `${calledSo(t)}\n${basename(t.source.file)}`.toLowerCase().includes(wanted) ? [i] : [],
  );
  if (found.length === 1) return found[0];
  const why =
    found.length === 0 ? 'No track' : `More than one track (${found.map((i) => calledSo(tracks[i])).join(', ')})`;
  throw new BarwiseError('bad-option', `${why} is called "${text}": give more of its title or file name.`);
}

function pairNamed(text: string, tracks: readonly TrackAnalysis[]): readonly [number, number] {
  const parts = text.split('<').map((part) => part.trim());
  if (parts.length === 2 && parts[0] && parts[1]) return [trackNamed(parts[0], tracks), trackNamed(parts[1], tracks)];
  throw new BarwiseError('bad-option', `--before does not take "${text}": give two names like "this < that".`);
}

function asJson(order: RunningOrder, tracks: readonly TrackAnalysis[], wishes: OrderWishes): string {
  const data = {
    method: order.method,
    cost: order.cost,
    tracks: order.tracks.map((t) => ({
      file: tracks[t.index].source.file,
      audioDigest: tracks[t.index].source.audioDigest,
      ...t,
    })),
    steps: order.steps,
    wishes: wishesKept(order, wishes),
  };
  return `${JSON.stringify(data)}\n`;
}

function asText(order: RunningOrder, tracks: readonly TrackAnalysis[], language: Language, io: Io): string {
  const words = wordsOf(language);
  const rows = order.tracks.map((entry, i) => {
    const track = tracks[entry.index];
    const { tonic, mode } = track.key;
    return [
      `${i + 1}`,
      calledSo(track),
      words.number(track.tempo.bpm, 1),
      tonic === null || mode === null ? '–' : words.key(tonic, mode),
      entry.integratedLufs === null ? '–' : words.number(entry.integratedLufs, 1, 'fixed'),
      words.number(entry.density, 1, 'fixed'),
      curve(entry),
      stepText(order.steps[i], language, io.stdout.isTTY === true),
    ];
  });
  if (io.stdout.isTTY !== true)
    return tabSeparated(
      COLUMNS.map((c) => c.head),
      rows,
    );
  return textTable(COLUMNS, rows, { width: io.stdout.columns ?? USUAL_WIDTH, bold: hasStyle(io.stdout, io.env) });
}

/** Where the track stands between the softest and the loudest, as a point on a line; a ring where it is wanted. */
function curve({ level, wanted }: RunningOrder['tracks'][number]): string {
  const cells = Array.from({ length: CURVE }, () => ' ');
  const at = (x: number) => Math.min(CURVE - 1, Math.floor(x * CURVE));
  if (wanted !== null) cells[at(wanted)] = '○';
  cells[at(level)] = '●';
  return cells.join('');
}

/** How the next one comes in; on a screen, where the line ends, without what meets there. */
function stepText(step: RunningOrder['steps'][number] | undefined, language: Language, isShort: boolean): string {
  const plan = step?.match?.plans[0];
  if (step?.match == null || plan === undefined) return '';
  if (plan.kind === 'cut') return step.match.obstacles.map((r) => sayMatch(r, language)).join(' ');
  const change = step.match.tempo.rateB - 1;
  const percent = `${change >= 0 ? '+' : '−'}${(Math.abs(change) * 100).toFixed(2)} %`;
  const moments = plan.reasons.find((r) => r.kind === 'moments-meet');
  const start = `${percent}: B ${plan.start.b.bar} → A ${plan.start.a.bar}`;
  return isShort || moments === undefined ? start : `${start}. ${sayMatch(moments, language)}`;
}
