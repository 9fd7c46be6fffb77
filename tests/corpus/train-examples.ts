import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { randomArrangement, renderArrangement } from '../../src/arranger/index.js';
import { beatFeatures } from '../../src/rhythm/beat-features.js';
import { describeBeats } from '../../src/rhythm/describe-beats.js';
import { downbeatCues, foldedCues } from '../../src/rhythm/downbeat-cues.js';
import { hearFrontEnd } from '../../src/rhythm/heard.js';
import { tempoCandidates } from '../../src/rhythm/tempo-candidates.js';
import { beatReadings } from '../../src/rhythm/weigh-beats.js';
import { FRONT_END_ID, type FrontEnd } from '../../src/signal/index.js';
import { randomNumbers } from '../../src/units/index.js';
import { fMeasure } from '../rhythm/drums.js';
import { OTHER_METRES, PATTERNS } from './plain-rhythms/patterns.js';
import { playPattern } from './plain-rhythms/play.js';
import {
  cachedFrontEnd,
  cutFrontEnd,
  cutPoint,
  cutTruth,
  frontEndOf,
  halfPoint,
  keepFrontEnd,
  makerOf,
  pack,
  readTruth,
  songIds,
  unpack,
  type SongTruth,
} from './song-front-ends.js';

/** One choice to learn from: the candidates of a track, and which are right. */
export interface Example {
  readonly id: string;
  readonly group: string;
  readonly maker: string;
  readonly source: string;
  /** 0 for the whole song, 1 and 2 for the seeds of its cuts, from HALVES on for halves that only the beat is trained on. */
  readonly cut: number;
  readonly cues: readonly (readonly number[])[];
  readonly right: readonly boolean[];
  /** What choosing each candidate would score: beat F, or 1 for the right downbeat. */
  readonly scores: readonly number[];
  /** Tempo of each candidate over the true tempo. */
  readonly ratios: readonly number[];
}

type Truth = { readonly bpm: number; readonly beats: readonly number[]; readonly downbeats: readonly number[] };
type Origin = Pick<Example, 'id' | 'group' | 'maker' | 'source' | 'cut'>;

/** Copies of each song: whole, and cut at two places. */
const CUTS = [0, 1, 2];
/** `Example.cut` of the first half; the second follows. */
export const HALVES = 10;
/** A half with fewer beats is too short to learn from. */
const LEAST_BEATS = 48;
/** Metres whose bars hold, or divide into, four beats. */
const FOURS = ['4/4', '8/4', '1/1', '12/8'];
/** A reading is right from this beat F on. */
const RIGHT = 0.9;

export interface Examples {
  readonly beat: Example[];
  readonly downbeat: Example[];
}

/** Examples of every development song, whole and cut. */
export function songExamples(corpus: string, cache: string): Examples {
  const out: Examples = { beat: [], downbeat: [] };
  for (const id of songIds(corpus)) {
    const frontEnd = cachedFrontEnd(corpus, id, cache);
    const truth = readTruth(corpus, id);
    for (const cut of CUTS) {
      const at = cut === 0 ? 0 : cutPoint(id, cut, frontEnd.duration);
      const t = at > 0 ? cutTruth(truth, at) : truth;
      const origin = { id, group: truth.group, ...makerOf(id), cut };
      addExamples(out, at > 0 ? cutFrontEnd(frontEnd, at) : frontEnd, t, origin, FOURS.includes(truth.meter));
    }
    addHalves(out, frontEnd, truth, { id, group: truth.group, ...makerOf(id) });
  }
  return out;
}

/** Examples of drawn arrangements without drift and without odd bars. */
export function arrangementExamples(count: number, cache: string): Examples {
  mkdirSync(cache, { recursive: true });
  const out: Examples = { beat: [], downbeat: [] };
  for (let seed = 1000; seed < 1000 + count; seed++) {
    const arrangement = randomArrangement(seed, { irregular: 0 });
    if (arrangement.style === 'live-band') continue;
    const file = join(cache, `arrangement-${seed}.${FRONT_END_ID}`);
    if (!existsSync(`${file}.json`)) {
      const { left, right, truth } = renderArrangement(arrangement);
      writeFileSync(`${file}.bin`, pack(frontEndOf(left, right)));
      writeFileSync(`${file}.json`, JSON.stringify(truth));
    }
    const truth = JSON.parse(readFileSync(`${file}.json`, 'utf8')) as {
      bpm: number;
      beatsPerBar: number;
      beats: number[];
      bars: { number: number; start: number }[];
    };
    const downbeats = truth.bars.filter((b) => b.number > 0).map((b) => b.start);
    const origin = {
      id: `arrangement-${seed}`,
      group: 'arranged',
      maker: `arranged-${arrangement.style}`,
      source: 'arranged',
      cut: 0,
    };
    const frontEnd = unpack(readFileSync(`${file}.bin`));
    addExamples(out, frontEnd, { ...truth, downbeats }, origin, truth.beatsPerBar === 4);
    addHalves(out, frontEnd, { ...truth, downbeats }, origin);
  }
  return out;
}

/** Takes of each plain rhythm to train on. */
const TAKES = 6;

/** Examples of plain rhythms; in bars of four also for the downbeat. */
export function plainExamples(): Examples {
  const out: Examples = { beat: [], downbeat: [] };
  [...PATTERNS, ...OTHER_METRES].forEach((pattern, i) => {
    for (let take = 0; take < TAKES; take++) {
      const { samples, alike, ...truth } = playPattern(pattern, 10_000 + 100 * i + take);
      const id = `plain-${pattern.name}-${take}`;
      const origin = { id, group: 'plain', maker: `plain-${pattern.name}`, source: 'arranged', cut: 0 };
      addExamples(out, frontEndOf(samples, samples), truth, origin, truth.beatsPerBar === 4, alike);
    }
  });
  return out;
}

/** Examples of pieces in the styles of an accompaniment generator, begun at a drawn place: made by build/accompaniments.py. */
export function playedExamples(folder: string): Examples {
  const out: Examples = { beat: [], downbeat: [] };
  for (const id of readdirSync(join(folder, 'truth')).sort()) {
    const { frontEnd, truth, origin } = playedPiece(folder, id.replace(/\.json$/, ''));
    addExamples(out, frontEnd, truth, origin, truth.meter === '4/4');
  }
  return out;
}

/** From how far in a played piece is begun, at most (s). */
const LATEST_START = 5;

/** One such piece, most of them cut at the start, with its truth from there on. */
export function playedPiece(folder: string, id: string): { frontEnd: FrontEnd; truth: SongTruth; origin: Origin } {
  const whole = cachedFrontEnd(folder, id, join(folder, 'front-ends'));
  const truth = readTruth(folder, id) as SongTruth & { readonly style: string };
  const at = Math.max(0, LATEST_START * (1.3 * randomNumbers(hashOf(id))() - 0.3));
  const origin = { id, group: 'played', maker: `played-${truth.style}`, source: 'played', cut: 0 };
  if (at === 0) return { frontEnd: whole, truth, origin };
  return { frontEnd: cutFrontEnd(whole, at), truth: cutTruth(truth, at), origin };
}

function hashOf(id: string): number {
  return createHash('sha256').update(id).digest().readUInt32LE();
}

/** Each half of a track as an example of its own, for the beat: what holds for a song should hold for its parts. */
function addHalves(out: Examples, frontEnd: FrontEnd, truth: Truth, origin: Omit<Origin, 'cut'>): void {
  const middle = halfPoint(frontEnd.duration);
  const first = truth.beats.filter((b) => b < middle);
  const second = truth.beats.filter((b) => b >= middle).map((b) => b - middle);
  const halves = [keepFrontEnd(frontEnd, middle), cutFrontEnd(frontEnd, middle)];
  [first, second].forEach((beats, i) => {
    if (beats.length > LEAST_BEATS)
      addExamples(out, halves[i], { ...truth, beats, downbeats: [] }, { ...origin, cut: HALVES + i }, false);
  });
}

function addExamples(
  out: Examples,
  frontEnd: FrontEnd,
  truth: Truth,
  origin: Origin,
  four: boolean,
  alike: readonly number[] = [0],
): void {
  const heard = hearFrontEnd(frontEnd);
  const { readings, cues } = beatReadings(heard, {}, tempoCandidates(heard.onsets, {}, 0));
  const last = truth.beats[truth.beats.length - 1] + 0.1;
  const scores = readings.map((r) =>
    fMeasure(
      truth.beats,
      [...r.beats].filter((b) => b <= last),
      Math.min(0.07, 0.175 / r.frequency),
    ),
  );
  const ratios = readings.map((r) => (60 * r.frequency) / truth.bpm);
  out.beat.push({ ...origin, cues, scores, ratios, right: scores.map((s) => s > RIGHT) });
  if (!four || truth.downbeats.length === 0) return;
  const features = beatFeatures(frontEnd, heard.logs, heard.onsets, truth.beats);
  const folded = downbeatCues(features, describeBeats(frontEnd, heard.logs, features, truth.beats), 4);
  const first = truth.beats.findIndex((b) => Math.abs(b - truth.downbeats[0]) < 0.01) % 4;
  const right = [0, 1, 2, 3].map((phase) => alike.some((shift) => phase === (first + shift) % 4));
  out.downbeat.push({
    ...origin,
    cues: [0, 1, 2, 3].map((phase) => foldedCues(folded, 4, phase)),
    right,
    scores: right.map(Number),
    ratios: [1, 1, 1, 1],
  });
}

/** All examples of several kinds. */
export function joined(kinds: readonly Examples[]): Examples {
  return { beat: kinds.flatMap((k) => k.beat), downbeat: kinds.flatMap((k) => k.downbeat) };
}
