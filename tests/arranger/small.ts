import type { ArrangedPart, Arrangement } from '../../src/arranger/index.js';

/** A small arrangement with chosen parts: eight bars of kick when none are given. */
export function small(parts?: readonly ArrangedPart[], rest: Partial<Arrangement> = {}): Arrangement {
  return {
    seed: 5,
    style: 'warm-four',
    bpm: 120,
    beatsPerBar: 4,
    swing: 0.5,
    key: { tonic: 'A', mode: 'minor' },
    progression: [1, 6, 4, 5],
    leadIn: 0.1,
    parts: parts ?? [{ function: 'main', phrases: [{ bars: 8, layers: ['kick'] }] }],
    ...rest,
  };
}
