import type { Interval } from '../../../src/evaluation/index.js';
import type { Outcome } from '../job.js';
import { markdown } from '../tables.js';
import type { Fold } from './grid-folds.js';
import { FIGURES, over, verdict, worse, type Figure, type Pair, type Part } from './figures.js';

/** All songs under the weights of one kind of fold. */
export type Run = Readonly<Record<Fold, readonly Pair[]>>;
export type Group = 'dance' | 'other';

/** Songs of a group: everything that is no dance music is other music, odd metres included. */
export function inGroup(pairs: readonly Pair[], group: Group): Pair[] {
  return pairs.filter((p) => (p.whole.group === 'dance') === (group === 'dance'));
}

/** The figures of a group of songs against floor and goal, with the references beside. */
export function figureTable(run: Run, group: Group): string {
  const systems = Object.keys(run.maker[0]?.whole.scores ?? {}).filter((s) => s !== 'barwise');
  const head = ['worse of whole and cut', 'floor', 'goal', 'maker held out', 'reached', 'from 0 s', 'source held out', ...systems]; // prettier-ignore
  const rows = FIGURES.flatMap((figure) => {
    const say = (pairs: readonly Pair[], system = 'barwise', part: Part = 'scores') =>
      over(
        figure,
        inGroup(pairs, group).map((p) => worse(p, system, figure, part)),
      );
    const main = say(run.maker);
    if (main === null) return [];
    const [floor, goal] = figure[group] ?? [];
    return [
      [
        figure.name,
        floor === undefined || floor === null ? '' : `${floor}`,
        goal === undefined ? '' : `${goal}`,
        withInterval(main, figure),
        verdict(main.mean, figure, group) ?? '',
        plain(say(run.maker, 'barwise', 'fromStart'), figure),
        withInterval(say(run.source), figure),
        ...systems.map((s) => withInterval(say(run.maker, s), figure)),
      ],
    ];
  });
  return markdown(head, rows);
}

/** Figures by which a reference is ahead of us or level, in words; two that reach all there is are no news. */
export function behind(run: Run, group: Group): string {
  const songs = inGroup(run.maker, group);
  const found = FIGURES.flatMap((figure) => {
    const value = (system: string) =>
      over(
        figure,
        songs.map((p) => worse(p, system, figure)),
      )?.mean ?? null;
    const ours = value('barwise');
    return REFERENCES.flatMap((system) => {
      const theirs = value(system);
      if (ours === null || theirs === null) return [];
      const better = figure.error ? theirs <= ours && ours > 0 : theirs >= ours && ours < 1;
      return better ? [`${figure.name} (${system} ${theirs.toFixed(figure.digits)})`] : [];
    });
  });
  return found.length === 0 ? 'ahead of both references on every figure' : `not ahead on ${found.join(', ')}`;
}

const REFERENCES = ['essentia', 'aubio'];

/** Every song by its worse figure, maker held out. */
export function songFigures(pairs: readonly Pair[]): string {
  const shown = FIGURES.filter((f) => SONG_FIGURES.includes(f.name));
  const rows = pairs.map((p) => [
    p.whole.id,
    p.whole.group,
    ...shown.map((f) => {
      const value = worse(p, 'barwise', f);
      return value === null ? '–' : value.toFixed(Math.min(f.digits, f.error ? 4 : 2));
    }),
  ]);
  return markdown(
    ['song', 'group', ...shown.map((f) => f.name.replace('within 10 ms', '(ms)').replace(/, (onsets|made).*/, ''))],
    rows,
  );
}

const SONG_FIGURES = [
  'tempo accuracy 1',
  'beat F',
  'AMLt',
  'downbeat F',
  'tempo error, median (BPM)',
  'beat error, median (ms), onsets verified',
  'last beat within 10 ms, made to a clock',
  'group starts F',
  'sections F, ½ beat',
  'sections F, 3 s',
];

function withInterval(i: Interval | null, { digits }: Figure): string {
  return i === null
    ? '–'
    : `${i.mean.toFixed(digits)} (${i.low.toFixed(digits)}–${i.high.toFixed(digits)}) n ${i.count}`;
}

function plain(i: Interval | null, { digits }: Figure): string {
  return i === null ? '–' : i.mean.toFixed(digits);
}

/** A song is listed when one of these is under its limit, whole or cut. */
const LIMITS = { tempo1: 1, beatF: 0.9, amlt: 0.9, downbeatF: 0.8 } as const;

/** What goes wrong, song by song: the values of the whole song and its cut copy, and the first cause. */
export function failureTable(run: Run): string {
  const rows = (['maker', 'source'] as const).flatMap((by) =>
    run[by].flatMap(({ whole, cut }) => {
      const measures = Object.keys(LIMITS) as (keyof typeof LIMITS)[];
      const fails = (o: Outcome) => measures.some((m) => (o.scores.barwise[m] ?? 1) < LIMITS[m]);
      if (!fails(whole) && !fails(cut)) return [];
      const both = (m: keyof typeof LIMITS) =>
        [whole, cut].map((o) => o.scores.barwise[m]?.toFixed(2) ?? '–').join(' / ');
      const wrong = [whole, cut].map((o) => (fails(o) ? o.wrong || 'a few beats' : 'right'));
      return [[whole.id, whole.group, by, ...measures.map(both), wrong[0] === wrong[1] ? wrong[0] : wrong.join(' / ')]];
    }),
  );
  rows.sort((a, b) => a[0].localeCompare(b[0]));
  return markdown(['song (whole / cut)', 'group', 'held out', 'accuracy 1', 'beat F', 'AMLt', 'downbeat F', 'what is wrong'], rows); // prettier-ignore
}

/** Signed bias and share matched by source of the songs, over songs whose beats were found. */
export function biasTable(pairs: readonly Pair[]): string {
  const sources = [...new Set(pairs.map((p) => p.whole.id.split('-')[0]))].sort();
  const rows = sources.map((source) => {
    const songs = pairs.filter((p) => p.whole.id.startsWith(`${source}-`)).map((p) => p.whole.scores.barwise);
    const known = songs.filter((s) => (s.beatsMatched ?? 0) > 0.5);
    const mid = (of: (s: (typeof songs)[number]) => number | null) => {
      const values = known.map(of).filter((v) => v !== null).sort((a, b) => a - b); // prettier-ignore
      return values.length === 0 ? '–' : values[values.length >> 1].toFixed(1);
    };
    const matched = songs.reduce((a, s) => a + (s.beatsMatched ?? 0), 0) / songs.length;
    return [
      source,
      `${songs.length}`,
      matched.toFixed(3),
      mid((s) => s.beatMedianMs),
      mid((s) => s.beat95Ms),
      mid((s) => s.beatBiasMs),
    ];
  });
  return markdown(['source', 'songs', 'share matched', 'median ms', '95 % ms', 'bias ms'], rows);
}
