import type { Layer } from '../units/index.js';
import type { MatchRemark } from '../wording/index.js';
import { barAt, presence, type CountedBar } from './count.js';
import { beatOfB, overlapBars, type Frame } from './frame.js';

/** Layers of which two at once are too many: two basslines blur, two voices talk over each other. Common practice, no source. */
export const CLASHING: readonly Layer[] = ['bass', 'voice'];

/** From here on a layer is taken to be there: rather a clash too many is told than one too few. */
const THERE = 0.3;

/** What two records do to each other in the overlap. */
export interface ClashCount {
  readonly remarks: readonly MatchRemark[];
  /** Share of the bars with both voices; with both basses. */
  readonly voice: number;
  readonly bass: number;
  /** Bars in which a voice cannot be judged in either. */
  readonly unjudged: number;
}

/** Looks for bass against bass and voice against voice, bar by bar. */
export function findClashes(frame: Frame): ClashCount {
  const bars = overlapBars(frame);
  const swap = frame.leaving.beat;
  const remarks: MatchRemark[] = [];
  const shares: Record<string, number> = {};
  let unjudged = 0;
  for (const layer of CLASHING) {
    const found = bars.map((bar) => both(frame, layer, bar));
    shares[layer] = found.filter((x) => x === true).length / Math.max(1, bars.length);
    const unknown = found.filter((x) => x === null).length;
    if (layer === 'voice') unjudged = unknown;
    if (unknown > 0) remarks.push({ kind: 'layer-unjudged', layer, bars: unknown });
    for (const run of runsOf(bars, (_, i) => found[i] === true, swap)) {
      const early = run[0].firstBeat < swap;
      remarks.push({
        kind: 'layer-clash',
        layer,
        fromA: run[0].number,
        toA: run[run.length - 1].number,
        bars: run.length,
        remedy: layer !== 'bass' ? 'none' : early ? 'cut-b' : 'cut-a',
      });
    }
  }
  return { remarks, voice: shares['voice'] ?? 0, bass: shares['bass'] ?? 0, unjudged };
}

/** Whether a layer is in a bar of A and under it in B; `null` where one is there and the other cannot be judged. */
function both(frame: Frame, layer: Layer, bar: CountedBar): boolean | null {
  const inA = presence(frame.a, layer, bar);
  const inB = strongest(frame, layer, bar);
  if (inB === undefined) return false;
  if (inA !== null && inA < THERE) return false;
  if (inB !== null && inB < THERE) return false;
  return inA === null || inB === null ? null : true;
}

/** The strongest presence in B under a bar of A; `undefined` where B has no bar there. */
function strongest(frame: Frame, layer: Layer, bar: CountedBar): number | null | undefined {
  const { b } = frame;
  let found: number | null | undefined;
  for (let beat = bar.firstBeat; beat < bar.firstBeat + bar.beats; beat++) {
    const under = barAt(b, beatOfB(frame, beat));
    if (under === null) continue;
    const value = presence(b, layer, under);
    if (value === null) found ??= null;
    else found = Math.max(found ?? 0, value);
  }
  return found;
}

/** Neighbouring bars for which something holds; the swap parts a run, because the remedy changes there. */
function runsOf(
  bars: readonly CountedBar[],
  holds: (bar: CountedBar, i: number) => boolean,
  swap: number,
): CountedBar[][] {
  const runs: CountedBar[][] = [];
  let open: CountedBar[] | null = null;
  bars.forEach((bar, i) => {
    if (!holds(bar, i) || (open !== null && bar.firstBeat === swap)) open = null;
    if (!holds(bar, i)) return;
    if (open === null) runs.push((open = []));
    open.push(bar);
  });
  return runs;
}
