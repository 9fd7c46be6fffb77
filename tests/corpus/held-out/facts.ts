import { z } from 'zod';
import { steadyTempo, type Truth } from '../../../src/evaluation/index.js';
import type { SongFacts } from '../job.js';

/** Milliseconds by which onsets may lie off the notes, and by which the two halves may differ; least clearness (z). */
const LAG = 5;
const HALVES = 3;
const CLEAR = 4;

const schema = z.object({
  alignment: z
    .object({ lag_ms: z.number(), z: z.number(), first_half_ms: z.number(), second_half_ms: z.number() })
    .nullish(),
});

/** What a song can be judged by. @param json its truth file, for how the onsets of the audio lie against the notes */
export function factsOf(truth: Truth, json: object): SongFacts {
  const a = schema.parse(json).alignment;
  const near = (half: number) => a !== null && a !== undefined && Math.abs(half - a.lag_ms) <= HALVES;
  return {
    steady: steadyTempo(truth.beats) !== null,
    verified: !!a && Math.abs(a.lag_ms) <= LAG && a.z >= CLEAR && near(a.first_half_ms) && near(a.second_half_ms),
    sections: truth.sections.length,
  };
}
