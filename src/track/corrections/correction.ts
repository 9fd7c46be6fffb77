import { z } from 'zod';
import { CHANGES, LAYERS, SECTION_FUNCTIONS } from '../../units/index.js';
import type { Bpm, Change, Layer, Seconds, SectionFunction } from '../../units/index.js';

/**
 * What a person has said about a track. The stages are run again under it; nothing is patched. Places are times, never
 * numbers of bars, because moving the first one renumbers every bar.
 * @public
 */
export type Correction =
  /** The metrical level: the tempo is counted at the reading nearest to this. */
  | { kind: 'tempo'; bpm: Bpm }
  | { kind: 'metre'; beatsPerBar: number }
  /** Bar 1 and phrase one start here; nothing before is counted. */
  | { kind: 'first-one'; time: Seconds }
  /** A beat falls here. */
  | { kind: 'beat'; time: Seconds }
  /** A bar starts here. */
  | { kind: 'bar'; time: Seconds }
  /** A phrase starts here, or none does. */
  | { kind: 'phrase'; time: Seconds; starts: boolean }
  /** A section starts here and does this (null: whatever it does), or none starts here. */
  | { kind: 'section'; time: Seconds; starts: boolean; function: SectionFunction | null }
  /** A layer enters or leaves here, or does not. */
  | { kind: 'event'; time: Seconds; layer: Layer; change: Change; happens: boolean };

/** What a correction can be about. @public */
export type CorrectionKind = Correction['kind'];

/** A correction as it stands in the file: with the moment at which it was said, and by whom or what. @public */
export type SaidCorrection = Correction & {
  /** ISO 8601, UTC; null where it is not known. */
  said: string | null;
  /** Null for a person's own word; else what it was taken from (annotations of somebody else). */
  from: string | null;
};

/** Longest track there can be (s): ten hours. */
const LONGEST: Seconds = 36_000;
const time = z.number().min(0).max(LONGEST).describe('Seconds from the start of the sound');

/** The schema of a correction, closed. In a file `starts`, `happens` and `function` may be left out. @public */
export const correctionSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('tempo'), bpm: z.number().min(20).max(400).describe('Beats a minute') }),
  z.strictObject({ kind: z.literal('metre'), beatsPerBar: z.number().int().min(2).max(16) }),
  z.strictObject({ kind: z.literal('first-one'), time }),
  z.strictObject({ kind: z.literal('beat'), time }),
  z.strictObject({ kind: z.literal('bar'), time }),
  z.strictObject({ kind: z.literal('phrase'), time, starts: z.boolean().default(true) }),
  z.strictObject({
    kind: z.literal('section'),
    time,
    starts: z.boolean().default(true),
    function: z.enum(SECTION_FUNCTIONS).nullable().default(null),
  }),
  z.strictObject({
    kind: z.literal('event'),
    time,
    layer: z.enum(LAYERS),
    change: z.enum(CHANGES),
    happens: z.boolean().default(true),
  }),
]);

type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : never) : never;
const same: Same<z.infer<typeof correctionSchema>, Correction> = true;
void same;

/** The correction without when and by whom it was said. @public */
export function plainCorrection(said: SaidCorrection | Correction): Correction {
  const plain: Partial<SaidCorrection> = { ...said };
  delete plain.said;
  delete plain.from;
  return plain as Correction;
}
