import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { boundaries, boundaryScore, eventScore, groupsOf, type LabelledInterval } from '../../src/evaluation/index.js';
import { BARS_IN_GROUP } from '../../src/units/index.js';
import { fillBetween } from './docs.js';
import { songIds } from './song-front-ends.js';
import { interval, markdown } from './tables.js';

const USAGE = `npx tsx tests/corpus/self-agreement.ts FOLDER [--docs]
  How well the truth of sections, and of the groups that are counted from them, agrees with itself when the share of tracks that must change is 20 % or 40 % and not 30 %:
  nobody can be expected to do better than that. FOLDER is made by tests/corpus/build.`;

/** The rule of tests/corpus/build/structure.py, in bars. */
const HOLD = 4;
const SHORTEST = 4;
const RULE = 0.3;
/** Fewer sections than this tell little. */
const LEAST = 3;

interface Song {
  readonly id: string;
  readonly group: string;
  readonly bpm: number;
  readonly beats: readonly number[];
  readonly downbeats: readonly number[];
  readonly sections?: readonly { readonly start: number; readonly end: number; readonly bar: number }[];
  readonly instrumentation?: readonly { readonly bars: string }[];
}

const [folder, ...options] = process.argv.slice(2);
if (!folder) {
  console.error(USAGE);
  process.exitCode = 2;
} else main(folder, options.includes('--docs'));

function main(corpus: string, docs: boolean): void {
  const songs = songIds(corpus)
    .map((id) => JSON.parse(readFileSync(join(corpus, 'truth', `${id}.json`), 'utf8')) as Song)
    .filter((s) => (s.sections?.length ?? 0) >= LEAST && s.instrumentation !== undefined);
  for (const s of songs) {
    const ours = startBars(s, RULE).join();
    const theirs = s.sections!.map((x) => x.bar - 1).join();
    if (ours !== theirs) throw new Error(`${s.id}: the rule gives bars ${ours}, the truth says ${theirs}.`);
  }
  const rows = [0.2, 0.4].flatMap((share) =>
    ['dance', 'other'].map((group) => {
      const part = songs.filter((s) => (s.group === 'dance') === (group === 'dance'));
      const f = (window: (s: Song) => number) =>
        interval(part.map((s) => boundaryScore(inner(s, RULE), inner(s, share), window(s)).f));
      const beat = (s: Song) => 60 / s.bpm;
      return [
        `${share * 100} % for ${RULE * 100} %`,
        group,
        `${part.length}`,
        f((s) => beat(s) / 2),
        f((s) => barOf(s) * 1.01),
        f(() => 0.5),
        f(() => 3),
        interval(part.flatMap((s) => groupF(s, share) ?? [])),
      ];
    }),
  );
  const text = markdown(['rule', 'music', 'songs', 'F at ½ beat', 'one bar', '0.5 s', '3 s', 'group starts F'], rows);
  console.log(text);
  if (docs) fillBetween(new URL('../../docs/accuracy.md', import.meta.url), 'self-agreement', text);
}

function barOf({ downbeats }: Song): number {
  return downbeats[1] - downbeats[0];
}

/** Times of the boundaries within the song. */
function inner(song: Song, share: number): number[] {
  const end = song.sections![song.sections!.length - 1].end;
  const starts = startBars(song, share).map((b) => song.downbeats[b]);
  const spans = starts.map((start, i): LabelledInterval => ({ start, end: starts[i + 1] ?? end, label: '' }));
  return boundaries(spans, true);
}

/** Groups counted from the sections of another share, on the groups of the truth; null where those are not known. */
function groupF(song: Song, share: number): number | null {
  const { downbeats } = song;
  const times = (bars: readonly number[]) => bars.map((b) => downbeats[b]);
  const { starts: right, unknown } = groupsOf(downbeats, times(startBars(song, RULE)));
  if (right.length === 0) return null;
  const sections = startBars(song, share);
  const said = sections.flatMap((from, i) => {
    const to = sections[i + 1] ?? downbeats.length;
    return Array.from({ length: Math.ceil((to - from) / BARS_IN_GROUP) }, (_, k) => from + k * BARS_IN_GROUP);
  });
  const judged = times(said).filter((t) => !unknown.some((u) => t > u.start && t < u.end));
  return eventScore(right, judged, 30 / song.bpm).f;
}

/** Bars (from 0) at which sections start when at least `share` of the tracks playing before or after change. */
export function startBars({ instrumentation }: Pick<Song, 'instrumentation'>, share: number): number[] {
  const tracks = instrumentation!.map((t) => bridged([...t.bars].map((c) => c === '1')));
  const count = Math.max(...tracks.map((t) => t.length));
  const changes: { share: number; bar: number }[] = [];
  for (let bar = 1; bar < count; bar++) {
    const either = tracks.filter((t) => t[bar] || t[bar - 1]).length;
    const changed = tracks.filter((t) => t[bar] !== t[bar - 1]).length;
    if (either > 0 && changed / either >= share) changes.push({ share: changed / either, bar });
  }
  changes.sort((a, b) => b.share - a.share || a.bar - b.bar);
  const starts = [0];
  for (const { bar } of changes)
    if (count - bar >= 2 && starts.every((s) => Math.abs(bar - s) >= SHORTEST)) starts.push(bar);
  return starts.sort((a, b) => a - b);
}

/** Silences of up to HOLD bars between two bars that sound are filled. */
function bridged(bars: readonly boolean[]): boolean[] {
  const out = [...bars];
  let last = -1;
  bars.forEach((on, b) => {
    if (!on) return;
    if (last >= 0 && b - last <= HOLD) out.fill(true, last, b);
    last = b;
  });
  return out;
}
