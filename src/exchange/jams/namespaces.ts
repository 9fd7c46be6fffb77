import { z } from 'zod';
import { MODES, PITCH_CLASSES, type Bpm, type Mode, type PitchClass, type Seconds } from '../../units/index.js';
import { damaged, type Jams, type JamsAnnotation, type JamsObservation } from './read.js';

/** Beats, and which of them are the first of a bar where that is said. @public */
export interface JamsBeats {
  readonly beats: readonly Seconds[];
  readonly downbeats: readonly Seconds[];
  /** Of most bars; null where it is not said. */
  readonly beatsPerBar: number | null;
}

/** A stretch of the track under a label, in seconds; `end` is the start of what follows. @public */
export interface JamsSegment {
  readonly start: Seconds;
  readonly end: Seconds;
  readonly label: string;
}

/** Values of each namespace, after the namespace files that are published with JAMS. */
const VALUES = {
  beat: z.number().nullable(),
  beat_position: z.object({
    position: z.number().min(1),
    measure: z.number().int().min(0),
    num_beats: z.number().int().min(1),
    beat_units: z.literal([1, 2, 4, 8, 16, 32, 64, 128, 256]),
  }),
  tempo: z.number().min(0),
  segment_open: z.string(),
  key_mode: z
    .string()
    .regex(/^N|([A-G][b#]?)(:(major|minor|ionian|dorian|phrygian|lydian|mixolydian|aeolian|locrian))?$/),
} as const;
type Namespace = keyof typeof VALUES;

/** Beats of the first annotation of `beat_position`, else of `beat`; null where there is neither. @public */
export function jamsBeats(jams: Jams): JamsBeats | null {
  const positions = observations(jams, 'beat_position');
  if (positions !== null) {
    return {
      beats: positions.map((o) => o.time),
      downbeats: positions.filter((o) => o.value.position === 1).map((o) => o.time),
      beatsPerBar: commonest(positions.map((o) => o.value.num_beats)),
    };
  }
  const beats = observations(jams, 'beat');
  if (beats === null) return null;
  const downbeats = beats.flatMap((o, i) => (o.value === 1 ? [i] : []));
  return {
    beats: beats.map((o) => o.time),
    downbeats: downbeats.map((i) => beats[i].time),
    beatsPerBar: commonest(downbeats.slice(1).map((i, k) => i - downbeats[k])),
  };
}

/** Where the bar that `beat_position` numbers 1 starts; null where no bar has that number. @experimental */
export function jamsFirstOne(jams: Jams): Seconds | null {
  const positions = observations(jams, 'beat_position') ?? [];
  return positions.find((o) => o.value.position === 1 && o.value.measure === 1)?.time ?? null;
}

/** The tempo that is held with most confidence, of equally sure ones the longest; null where none is given. @public */
export function jamsTempo(jams: Jams): Bpm | null {
  const sure = (o: JamsObservation) => (typeof o.confidence === 'number' ? o.confidence : 0);
  const tempos = observations(jams, 'tempo')?.filter((o) => o.value > 0) ?? [];
  return tempos.toSorted((a, b) => sure(b) - sure(a) || b.duration - a.duration)[0]?.value ?? null;
}

/**
 * Segments under open labels, of the first such annotation that is not of phrases; null where there is none.
 * @public
 */
export function jamsSegments(jams: Jams): readonly JamsSegment[] | null {
  return segmentations(jams).find((segments) => !arePhrases(segments)) ?? null;
}

/**
 * Segments of the first annotation with open labels that are all called "phrase …"; null where there is none.
 * @experimental
 */
export function jamsPhrases(jams: Jams): readonly JamsSegment[] | null {
  return segmentations(jams).find(arePhrases) ?? null;
}

function arePhrases(segments: readonly JamsSegment[]): boolean {
  return segments.length > 0 && segments.every(({ label }) => /^phrase\b/i.test(label));
}

/** Every annotation with open labels. */
function segmentations(jams: Jams): readonly (readonly JamsSegment[])[] {
  return jams.annotations
    .filter((a) => a.namespace === 'segment_open')
    .map((a) => checked(jams, a, 'segment_open'))
    .map((data) => data.map((o) => ({ start: o.time, end: o.time + o.duration, label: o.value })));
}

/**
 * The key that holds longest, when it is major or minor; null for other modes, for `N`, and where none is given.
 * @public
 */
export function jamsKey(jams: Jams): { readonly tonic: PitchClass; readonly mode: Mode } | null {
  const keys = observations(jams, 'key_mode')?.toSorted((a, b) => b.duration - a.duration) ?? [];
  const parts = /^([A-G])([b#]?):(\w+)$/.exec(keys[0]?.value ?? '');
  if (parts === null) return null;
  const mode = MODES.find((m) => m === ({ ionian: 'major', aeolian: 'minor' }[parts[3]] ?? parts[3]));
  const step = NATURAL[parts[1]] + { b: -1, '#': 1, '': 0 }[parts[2] as 'b' | '#' | ''];
  return mode ? { tonic: PITCH_CLASSES[(step + 12) % 12], mode } : null;
}

/** Semitones above C. */
const NATURAL: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

type Typed<N extends Namespace> = JamsObservation & { readonly value: z.infer<(typeof VALUES)[N]> };

/** The first annotation of a namespace, its values checked; null where there is none. */
function observations<N extends Namespace>(jams: Jams, namespace: N): Typed<N>[] | null {
  const found = jams.annotations.find((a) => a.namespace === namespace);
  return found ? checked(jams, found, namespace) : null;
}

function checked<N extends Namespace>(jams: Jams, { data }: JamsAnnotation, namespace: N): Typed<N>[] {
  return data.map((o, i) => {
    if (VALUES[namespace].safeParse(o.value).success) return o as Typed<N>;
    throw damaged(jams.name, `value ${i + 1} of ${namespace}`);
  });
}

function commonest(counts: readonly number[]): number | null {
  const times = new Map<number, number>();
  for (const n of counts) times.set(n, (times.get(n) ?? 0) + 1);
  return [...times].sort(([, a], [, b]) => b - a)[0]?.[0] ?? null;
}
