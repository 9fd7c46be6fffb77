import { z } from 'zod';
import { LAYERS, SECTION_FUNCTIONS } from '../units/index.js';
import { KEY_RELATIONS, type MatchRemark } from '../wording/index.js';

const number = z.number();
const bar = z.number().int();
const deck = z.enum(['a', 'b']);
const layer = z.enum(LAYERS);
const subject = z.enum(['tempo', 'beat', 'downbeat', 'phrase', 'section']);
const moment = z.enum([...SECTION_FUNCTIONS, 'end', 'start']);

/** A remark of one kind, and what its sentence is made from. */
const remark = <K extends string, S extends z.ZodRawShape>(kind: K, shape: S) =>
  z.strictObject({ kind: z.literal(kind), ...shape });

/** The schema of a remark on a plan, closed. */
export const remarkSchema = z.discriminatedUnion('kind', [
  remark('phrase-on-phrase', { barA: bar, barB: bar }),
  remark('group-on-phrase', { barA: bar, barB: bar, phraseBar: bar }),
  remark('moments-meet', { functionA: moment, functionB: moment, barA: bar, barB: bar }),
  remark('phrases-agree', { agree: number, of: number }),
  remark('bass-free', { bars: number }),
  remark('layer-clash', { layer, fromA: bar, toA: bar, bars: number, remedy: z.enum(['cut-b', 'cut-a', 'none']) }),
  remark('layer-may-clash', { layer, fromA: bar, toA: bar, bars: number }),
  remark('layer-unjudged', { layer, bars: number }),
  remark('tempo-change', { deck, percent: number, semitones: number }),
  remark('tempo-ratio', { ratio: number, bpmA: number, bpmB: number }),
  remark('key', { relation: z.enum(KEY_RELATIONS), fifths: number, cents: number, locked: z.boolean() }),
  remark('key-unknown', { deck }),
  remark('louder', { deck, lu: number }),
  remark('loudness-unknown', { deck }),
  remark('ones-apart', { fromA: bar, toA: bar, beats: number }),
  remark('irregular-in-overlap', {
    deck,
    sentence: z.string(),
    bar,
    effect: z.enum(['none', 'phrases-part', 'ones-part', 'absorbed', 'nudge']),
  }),
  remark('no-irregularity', {}),
  remark('avoids-irregularity', { deck, bar }),
  remark('drifts', { deck, milliseconds: number }),
  remark('early-in-a', { time: number }),
  remark('late-in-b', { bar }),
  remark('tempo-out-of-range', { percent: number, range: number }),
  remark('metres-differ', { a: number, b: number }),
  remark('no-common-phrase', {}),
  remark('confidence', { value: number.nullable(), deck, subject }),
  remark('start-unsure', {
    value: number.nullable(),
    deck,
    subject,
    surer: z.number().int().min(1).nullable().describe('Number of the best plan that rests on surer answers'),
  }),
]);

type Mutable<T> = T extends unknown ? { -readonly [K in keyof T]: T[K] } : never;
type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : never) : never;
const same: Same<z.infer<typeof remarkSchema>, Mutable<MatchRemark>> = true;
void same;
