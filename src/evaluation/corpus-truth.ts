import { z } from 'zod';
import { MODES, PITCH_CLASSES, type NamedKey } from '../units/index.js';
import { groupsOf, type Truth } from './truth.js';

/** The truth files of the development songs (see tests/corpus/build); what is not listed is not needed here. */
const schema = z.object({
  id: z.string().min(1),
  group: z.string(),
  bpm: z.number().positive(),
  duration_s: z.number().positive(),
  beats: z.array(z.number()).min(2),
  downbeats: z.array(z.number()),
  sections: z.array(z.object({ start: z.number(), end: z.number(), label: z.string() })).optional(),
  key_of_notes: z.object({ tonic: z.enum(PITCH_CLASSES), mode: z.enum(MODES), margin: z.number() }).nullish(),
});

/**
 * Reads the truth of a development song.
 *
 * @experimental
 * @param json what `JSON.parse` gave
 * @throws ZodError naming the field that is missing or wrong
 */
export function readTruth(json: unknown): Truth {
  const t = schema.parse(json);
  const sections = t.sections ?? [];
  const groups = groupsOf(
    t.downbeats,
    sections.map((s) => s.start),
  );
  return {
    id: t.id,
    group: t.group,
    maker: makerOf(t.id),
    bpm: t.bpm,
    beatsPerBar: beatsPerBar(t.beats, t.downbeats),
    duration: t.duration_s,
    beats: t.beats,
    downbeats: t.downbeats,
    groupStarts: groups.starts,
    groupsUnknown: groups.unknown,
    phraseStarts: [],
    sections,
    key: keyOf(t.key_of_notes),
  };
}

/** A key counts as known when the notes fit it better than the next best by this much (difference of correlations). */
const CLEAR_KEY = 0.1;

function keyOf(
  key: { tonic: NamedKey['tonic']; mode: NamedKey['mode']; margin: number } | null | undefined,
): NamedKey | null {
  return key && key.margin >= CLEAR_KEY ? { tonic: key.tonic, mode: key.mode } : null;
}

/** The first two parts of an id name source and maker; the modules of one game are one maker's. */
function makerOf(id: string): string {
  return id.split('-').slice(0, 2).join('-');
}

/** The commonest number of beats from one downbeat to the next; 4 when downbeats are not known. */
function beatsPerBar(beats: readonly number[], downbeats: readonly number[]): number {
  const counts = new Map<number, number>();
  for (let d = 0, b = 0; d + 1 < downbeats.length; d++) {
    while (b < beats.length && beats[b] < downbeats[d] - 1e-3) b++;
    let n = 0;
    while (b + n < beats.length && beats[b + n] < downbeats[d + 1] - 1e-3) n++;
    counts.set(n, (counts.get(n) ?? 0) + 1);
  }
  return [...counts].sort(([, a], [, b]) => b - a)[0]?.[0] ?? 4;
}
