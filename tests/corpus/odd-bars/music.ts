import { join } from 'node:path';
import { arrangementTruth, randomArrangement, type Arrangement } from '../../../src/arranger/index.js';
import { nearest } from '../../../src/evaluation/matching.js';
import type { FrontEnd } from '../../../src/signal/index.js';
import { BARS_IN_GROUP, randomNumbers, type Seconds } from '../../../src/units/index.js';
import { cachedArranged } from '../../form/training/cached.js';
import { practiceArrangement } from '../../form/training/practice.js';
import { cachedFrontEnd, makerOf, readTruth, type SongTruth } from '../song-front-ends.js';
import { spliced } from '../spliced.js';
import { isLocked } from '../train-folds.js';

/** A bar that is longer (or, negative, shorter) by so many beats: the next one starts at `time`. */
export interface TrueOddBar {
  readonly time: Seconds;
  readonly surplus: number;
}

/** Music of which the odd bars are known. */
export interface OddMusic {
  readonly kind: string;
  /** What is held out together. */
  readonly fold: string;
  readonly hear: () => FrontEnd;
  readonly odd: readonly TrueOddBar[];
}

/** Edited copies of each piece, bars left alone at its ends, the shortest piece, and the share of edits at a group's end. */
const COPIES = 2;
const ENDS = 8;
const LEAST_BARS = 24;
const GROUP_ENDS = 0.7;

/** Pieces but those kept back, each whole and with one or two beats cut out, or played twice, before a bar. */
export function* editedMusic(kind: string, corpus: string, ids: readonly string[]): Generator<OddMusic> {
  let seed = 1;
  for (const id of ids) {
    const truth = readTruth(corpus, id) as SongTruth & { readonly style?: string };
    const fold = truth.style === undefined ? makerOf(id).maker : `played-${truth.style}`;
    if (isLocked(fold) || truth.downbeats.length < LEAST_BARS) continue;
    const hear = () => cachedFrontEnd(corpus, id, join(corpus, 'front-ends'));
    const { odd, beatsPerBar } = ownOddBars(truth);
    yield { kind, fold, hear, odd };
    if (beatsPerBar !== 3 && beatsPerBar !== 4) continue;
    for (let copy = 0; copy < COPIES; copy++) {
      const random = randomNumbers(seed++);
      const drawn = ENDS + Math.floor(random() * (truth.downbeats.length - 2 * ENDS));
      const bar = random() < GROUP_ENDS ? Math.round(drawn / BARS_IN_GROUP) * BARS_IN_GROUP : drawn;
      const beats = beatsPerBar === 4 && random() < 0.5 ? 2 : 1;
      const surplus = random() < 0.5 ? -beats : beats;
      const at = truth.downbeats[bar];
      const seconds = (surplus * (at - truth.downbeats[bar - 1])) / beatsPerBar;
      yield {
        kind: `${kind}, edited`,
        fold,
        hear: () => spliced(hear(), at, seconds),
        odd: [
          ...odd.filter((o) => o.time < at),
          { time: at + seconds, surplus },
          ...odd.filter((o) => o.time > at).map((o) => ({ ...o, time: o.time + seconds })),
        ],
      };
    }
  }
}

function ownOddBars({ beats, downbeats }: SongTruth): { odd: TrueOddBar[]; beatsPerBar: number } {
  const firsts = downbeats.map((time) => nearest(beats, time));
  const lengths = firsts.slice(1).map((b, i) => b - firsts[i]);
  const beatsPerBar = [...lengths].sort((a, b) => a - b)[lengths.length >> 1];
  const odd = lengths.flatMap((length, i) =>
    length === beatsPerBar ? [] : [{ time: downbeats[i + 1], surplus: length - beatsPerBar }],
  );
  return { odd, beatsPerBar };
}

/** Drawn tracks of these seeds with beats added or dropped, of at most so many seconds. */
const SEEDS = [
  [71_001, 71_150],
  [72_001, 72_181],
] as const;
const LONGEST: Seconds = 260;
/** Practice and drawn arrangements that the form is trained on. */
const OTHERS = 90;

/** Arranged tracks, some with beats added or dropped. @param cache folder in which what was heard is kept */
export function* arrangedMusic(cache: string): Generator<OddMusic> {
  const hear = cachedArranged(cache);
  for (const arrangement of arrangements()) {
    const { bars, irregularities } = arrangementTruth(arrangement);
    const odd = irregularities.flatMap(({ kind, bar, amount }): TrueOddBar[] =>
      kind === 'added-beats' || kind === 'dropped-beats'
        ? [{ time: bars[bar].start, surplus: kind === 'added-beats' ? amount : -amount }]
        : [],
    );
    const fold = `${arrangement.style} ${arrangement.seed}`;
    yield { kind: 'arranged', fold, hear: () => hear(arrangement).frontEnd, odd };
  }
}

function* arrangements(): Generator<Arrangement> {
  for (let i = 0; i < OTHERS; i++) yield* [practiceArrangement(i), randomArrangement(20_000 + i)];
  for (const [first, last] of SEEDS)
    for (let seed = first; seed <= last; seed++) {
      const arrangement = randomArrangement(seed);
      const { beats, irregularities } = arrangementTruth(arrangement);
      const beaten = irregularities.some(({ kind }) => kind === 'added-beats' || kind === 'dropped-beats');
      if (beaten && beats[beats.length - 1] <= LONGEST) yield arrangement;
    }
}
