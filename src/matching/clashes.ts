import type { Fraction } from '../units/index.js';
import type { MatchRemark } from '../wording/index.js';
import { barAt, type CountedBar, type TrackCount } from './count.js';
import { beatOfB, overlapBars, type Frame } from './frame.js';
import { CLASHING, type ClashingLayer, type Heard } from './hearing.js';

/** A clash that is not sure is told from so many bars on beside one that is: presences are fitted bar by bar. */
const SHORTEST_BESIDE = 2;

/** What two records do to each other in the overlap. */
export interface ClashCount {
  readonly remarks: readonly MatchRemark[];
  /** Share of the bars with both voices; with both basses. */
  readonly voice: Fraction;
  readonly bass: Fraction;
  /** Share of the bars in which both may sound, though that is not sure. */
  readonly perhaps: Readonly<Record<ClashingLayer, Fraction>>;
  /** Bars in which a voice cannot be judged in either. */
  readonly unjudged: number;
}

/** How sure it is that a layer sounds in both records. */
type Meeting = 'sure' | 'perhaps' | 'unjudged' | 'none';

/** Looks for bass against bass and voice against voice, bar by bar. */
export function findClashes(frame: Frame): ClashCount {
  const bars = overlapBars(frame);
  const remarks: MatchRemark[] = [];
  const share = (found: readonly Meeting[], wanted: Meeting) =>
    found.filter((meeting) => meeting === wanted).length / Math.max(1, bars.length);
  const perLayer = CLASHING.map((layer) => {
    const found = bars.map((bar) => meetingOf(frame, layer, bar));
    const unknown = found.filter((meeting) => meeting === 'unjudged').length;
    if (unknown > 0) remarks.push({ kind: 'layer-unjudged', layer, bars: unknown });
    remarks.push(...sureClashes(layer, bars, found, frame.leaving.beat), ...possibleClashes(layer, bars, found));
    return { layer, sure: share(found, 'sure'), perhaps: share(found, 'perhaps'), unknown };
  });
  const [bass, voice] = perLayer;
  return {
    remarks,
    voice: voice.sure,
    bass: bass.sure,
    perhaps: { bass: bass.perhaps, voice: voice.perhaps },
    unjudged: voice.unknown,
  };
}

function sureClashes(
  layer: ClashingLayer,
  bars: readonly CountedBar[],
  found: readonly Meeting[],
  swap: number,
): MatchRemark[] {
  return runsOf(bars, (i) => found[i] === 'sure', swap).map((run) => ({
    kind: 'layer-clash',
    layer,
    ...extent(run),
    remedy: layer !== 'bass' ? 'none' : run[0].firstBeat < swap ? 'cut-b' : 'cut-a',
  }));
}

function possibleClashes(layer: ClashingLayer, bars: readonly CountedBar[], found: readonly Meeting[]): MatchRemark[] {
  return runsOf(bars, (i) => found[i] === 'perhaps')
    .filter((run) => {
      const first = bars.indexOf(run[0]);
      const beside = found[first - 1] === 'sure' || found[first + run.length] === 'sure';
      return run.length >= SHORTEST_BESIDE || !beside;
    })
    .map((run) => ({ kind: 'layer-may-clash', layer, ...extent(run) }));
}

const extent = (run: readonly CountedBar[]) => ({
  fromA: run[0].number,
  toA: run[run.length - 1].number,
  bars: run.length,
});

/** Whether a layer is in a bar of A and under it in B. */
function meetingOf(frame: Frame, layer: ClashingLayer, bar: CountedBar): Meeting {
  const inA = heardAt(frame.a, layer, bar.firstBeat);
  const inB = heardUnder(frame, layer, bar);
  if (inB === undefined || inA === 'not' || inB === 'not') return 'none';
  if (inA === null || inB === null) return 'unjudged';
  return inA === 'there' && inB === 'there' ? 'sure' : 'perhaps';
}

/** From the surest to the least sure. */
const SUREST: readonly Heard[] = ['there', 'perhaps', 'not', null];

/** What is heard most surely in B under a bar of A; `undefined` where B has no bar there. */
function heardUnder(frame: Frame, layer: ClashingLayer, bar: CountedBar): Heard | undefined {
  const under = Array.from({ length: bar.beats }, (_, i) => beatOfB(frame, bar.firstBeat + i))
    .filter((beat) => barAt(frame.b, beat) !== null)
    .map((beat) => heardAt(frame.b, layer, beat));
  return SUREST.find((heard) => under.includes(heard));
}

const heardAt = ({ hearing, barOf }: TrackCount, layer: ClashingLayer, beat: number): Heard =>
  hearing[layer][barOf[Math.floor(beat)]];

/** Neighbouring bars for which something holds; the swap, where one is given, parts a run, because the remedy changes there. */
function runsOf(bars: readonly CountedBar[], holds: (i: number) => boolean, swap?: number): CountedBar[][] {
  const runs: CountedBar[][] = [];
  let open: CountedBar[] | null = null;
  bars.forEach((bar, i) => {
    if (!holds(i) || (open !== null && bar.firstBeat === swap)) open = null;
    if (!holds(i)) return;
    if (open === null) runs.push((open = []));
    open.push(bar);
  });
  return runs;
}
