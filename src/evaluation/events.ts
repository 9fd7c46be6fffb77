import type { Change, IrregularityKind, Layer, Seconds } from '../units/index.js';
import { fScore, matchEvents, type FScore } from './matching.js';

/** Planted and found things and how many of them met. @experimental */
export interface Hits {
  readonly planted: number;
  readonly found: number;
  readonly hits: number;
}

/** A layer that enters or leaves, and when. @experimental */
export interface TimedLayer {
  readonly time: Seconds;
  readonly layer: Layer;
  readonly change: Change;
}

/** An irregularity of some kind, and when. @experimental */
export interface TimedIrregularity {
  readonly time: Seconds;
  readonly kind: IrregularityKind;
}

/** Entries and exits of layers: the same layer does the same within `window` seconds. @experimental */
export function layerHits(planted: readonly TimedLayer[], found: readonly TimedLayer[], window: Seconds): Hits {
  return hitsBy(planted, found, window, (e) => `${e.layer} ${e.change}`);
}

/**
 * Irregularities: the same kind within `window` seconds. Times and not bar numbers are compared, because an error in bar
 * one would move every number.
 * @experimental
 */
export function irregularityHits(
  planted: readonly TimedIrregularity[],
  found: readonly TimedIrregularity[],
  window: Seconds,
): Hits {
  return hitsBy(planted, found, window, (i) => i.kind);
}

/** F-measure of hits; nothing planted and nothing found is perfect. @experimental */
export function hitScore({ planted, found, hits }: Hits): FScore {
  return planted === 0 && found === 0 ? { f: 1, precision: 1, recall: 1 } : fScore(hits, planted, found);
}

function hitsBy<T extends { readonly time: Seconds }>(
  planted: readonly T[],
  found: readonly T[],
  window: Seconds,
  name: (item: T) => string,
): Hits {
  const times = (items: readonly T[], kind: string) => items.filter((i) => name(i) === kind).map((i) => i.time).sort((a, b) => a - b); // prettier-ignore
  let hits = 0;
  for (const kind of new Set(planted.map(name)))
    hits += matchEvents(times(planted, kind), times(found, kind), window).length;
  return { planted: planted.length, found: found.length, hits };
}
