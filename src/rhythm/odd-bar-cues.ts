import { BARS_IN_GROUP } from '../units/index.js';
import { modulo } from './modulo.js';
import type { SlipEvidence } from './slips.js';

/** A unit of slip evidence counts so many nats where candidates are ranked. */
const SLIP = 1.1;
/** Candidates of a track that are judged, and bars between two of them. */
const MOST = 10;
const APART_BARS = 5;
/** Bars on either side that are looked at by themselves; and how far away another place is another place. */
const NEAR_BARS = 16;
const ELSEWHERE_BARS = 8;
/** The first and last bars are too few to tell anything. */
const EDGE_BARS = 2;
/** Values below these are as good as nothing. */
const LEAST_SLIP = -20;
const LEAST_SCORE = -10;

/** Beats that a bar may have too many (or, negative, too few). */
const SURPLUSES = [-2, -1, 1, 2] as const;

/** Names of the cues of a candidate, in their order; weights rest on it. */
export const ODD_BAR_CUES: readonly string[] = [
  'evidence won in the whole track',
  'evidence won on the weaker side',
  'slip',
  'slip over other places',
  'slip over the opposite surplus',
  'evidence won in the bars after',
  'evidence won in the bars before',
  'beats too many',
  'ends a group of four',
  'bars to the nearer end',
  'score over the next best candidate',
  'best candidate',
  'score of the best candidate',
];

/** A place at which a bar may be longer or shorter than the others. */
export interface OddBarCandidate {
  /** The beat on which the bar after the odd one starts. */
  readonly beat: number;
  /** Beats that the odd bar has too many (negative: too few). */
  readonly surplus: number;
  /** Place of the bars' first beats among the beats before it, modulo the beats of a bar. */
  readonly phase: number;
  readonly cues: readonly number[];
}

/** What candidates are drawn from. */
export interface OddBarScene {
  /** Nats for a bar starting on each beat. */
  readonly evidence: ArrayLike<number>;
  readonly beatsPerBar: number;
  readonly slip: SlipEvidence;
}

/** An odd bar that is taken for granted. */
export type OddBar = Pick<OddBarCandidate, 'beat' | 'surplus'>;

/** Place of each beat when the surplus beats before it are not counted. */
export function places(beats: number, odd: readonly OddBar[]): Int32Array {
  const out = new Int32Array(beats + 1);
  for (let b = 0; b <= beats; b++) out[b] = b - odd.reduce((s, o) => s + (o.beat <= b ? o.surplus : 0), 0);
  return out;
}

/**
 * The likeliest places of a further odd bar, best first: at every beat one is forced in turn, and what the bars on both sides
 * win by it is held against going straight on.
 * @param known odd bars that are counted in already
 * @param phase of the bars' first beats, where `known` has fixed it
 */
export function oddBarCandidates(scene: OddBarScene, known: readonly OddBar[] = [], phase?: number): OddBarCandidate[] {
  const { evidence, beatsPerBar: m, slip } = scene;
  const n = evidence.length;
  const place = places(n, known);
  const sums = phaseSums(evidence, m, place);
  const within = (p: number, from: number, to: number) => sums[p][Math.min(to, n)] - sums[p][Math.max(from, 0)];
  const straight = phase === undefined ? Math.max(...sums.map((s) => s[n])) : sums[phase][n];
  const surpluses = SURPLUSES.filter((k) => Math.abs(k) <= m / 2);
  const ranked: Ranked[] = [];
  for (const surplus of surpluses)
    for (let beat = EDGE_BARS * m; beat <= n - EDGE_BARS * m; beat++) {
      const before = modulo(place[beat - 1] + 1 - surplus, m);
      const after = modulo(place[beat - 1] + 1, m);
      if (phase !== undefined && before !== phase) continue;
      const won = within(before, 0, beat) + within(after, beat, n) - straight;
      const slipped = slip(beat, -surplus);
      ranked.push({ beat, surplus, before, after, won, slipped, score: won + SLIP * slipped });
    }
  const best: Ranked[] = [];
  for (const c of ranked.sort((a, b) => b.score - a.score)) {
    const taken = (o: { beat: number }) => Math.abs(o.beat - c.beat) <= APART_BARS * m;
    if (!best.some(taken) && !known.some(taken)) best.push(c);
    if (best.length === MOST) break;
  }
  return best.map((c, i): OddBarCandidate => {
    const { beat, surplus, before, after, won, slipped, score } = c;
    const gain = (from: number, to: number) => within(after, from, to) - within(before, from, to);
    const elsewhere = ranked.reduce(
      (top, o) => (Math.abs(o.beat - beat) > ELSEWHERE_BARS * m ? Math.max(top, o.slipped) : top),
      LEAST_SLIP,
    );
    const next = Math.max(best[i === 0 ? 1 : 0]?.score ?? LEAST_SCORE, LEAST_SCORE);
    const bars = Math.round((place[beat - 1] + 1 - surplus - before) / m);
    const cues = [
      won,
      Math.min(gain(beat, n), -gain(0, beat)),
      slipped,
      slipped - elsewhere,
      slipped - slip(beat, surplus),
      gain(beat, beat + NEAR_BARS * m),
      -gain(beat - NEAR_BARS * m, beat),
      surplus > 0 ? 1 : 0,
      bars % BARS_IN_GROUP === 0 ? 1 : 0,
      Math.min(bars, (n - beat) / m, NEAR_BARS),
      score - next,
      i === 0 ? 1 : 0,
      i === 0 && score > next ? score : 0,
    ];
    return { beat, surplus, phase: before, cues };
  });
}

interface Ranked {
  readonly beat: number;
  readonly surplus: number;
  /** Phase of the bars before and after. */
  readonly before: number;
  readonly after: number;
  /** Evidence won, slip evidence, and both together. */
  readonly won: number;
  readonly slipped: number;
  readonly score: number;
}

/** For each phase the running sums, over the beats, of the evidence (against its mean) for bars that start at it. */
function phaseSums(evidence: ArrayLike<number>, m: number, place: Int32Array): Float64Array[] {
  const n = evidence.length;
  let mean = 0;
  for (let b = 0; b < n; b++) mean += evidence[b] / n;
  return Array.from({ length: m }, (_, p) => {
    const sum = new Float64Array(n + 1);
    for (let b = 0; b < n; b++) sum[b + 1] = sum[b] + (modulo(place[b], m) === p ? evidence[b] - mean : 0);
    return sum;
  });
}
