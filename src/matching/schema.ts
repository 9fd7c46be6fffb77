import { z } from 'zod';
import { CHANGES, LAYERS, SECTION_FUNCTIONS } from '../units/index.js';
import type { MatchPlan, TrackMatch } from './places.js';
import { remarkSchema } from './remark-schema.js';

/** Version of the data that `barwise match --json` prints. 1: as first printed. @experimental */
export const MATCH_VERSION = 1;

const count = z.number().int();
const fraction = z.number().min(0).max(1);
const place = z
  .strictObject({
    bar: count,
    groupBar: count.describe('Bar of its four-bar group, from 1'),
    phraseBar: count.describe('Bar of its phrase, from 1'),
    time: z.number().describe('Seconds into the file, at its own speed'),
    beat: count.describe('Index of its beat in the analysis'),
  })
  .readonly();
const moment = z.enum([...SECTION_FUNCTIONS, 'end', 'start']);
const change = z.strictObject({ layer: z.enum(LAYERS), change: z.enum(CHANGES) }).readonly();
const one = z
  .strictObject({
    bar: count,
    time: z.number(),
    groupBar: count,
    phraseStarts: z.boolean(),
    section: z.enum(SECTION_FUNCTIONS).nullable(),
    changes: z.array(change).readonly(),
  })
  .readonly();

const step = z
  .strictObject({
    beat: count.describe("Beats of A since B's start"),
    elapsed: z.number().describe("Seconds since B's start, at the tempo of the overlap"),
    a: one.nullable(),
    b: one.nullable(),
    actions: z.array(z.enum(['start-b', 'bass-swap', 'change-over', 'a-out'])).readonly(),
    barsLeft: z.number().describe('Bars of A left until A is out'),
    timeLeft: z.number().describe('Seconds left until A is out'),
  })
  .readonly();

const both = z.strictObject({ a: place, b: place }).readonly();
const plan = {
  kind: z.enum(['blend', 'cut']).describe('blend: both play together; cut: B starts as A ends'),
  score: fraction.describe('For ordering plans of a pair, nothing else'),
  start: z.strictObject({ a: place, b: place, countInFrom: place.nullable() }).readonly(),
  meet: z.strictObject({ a: place, b: place, functionA: moment, functionB: moment }).readonly(),
  end: both.describe('Where A is out'),
  overlap: z.strictObject({ bars: z.number(), before: z.number(), after: z.number() }).readonly().describe('Bars of A'),
  steps: z.array(step).readonly(),
  alignment: z
    .array(
      z
        .strictObject({
          fromA: count,
          toA: count,
          beats: z.number().describe("By how many beats B's ones come after A's"),
        })
        .readonly(),
    )
    .readonly(),
  confidence: z
    .strictObject({
      value: fraction.nullable(),
      deck: z.enum(['a', 'b']),
      subject: z.enum(['tempo', 'beat', 'downbeat', 'phrase', 'section']),
    })
    .readonly(),
};

const meeting = z
  .strictObject({
    relation: z.enum(['same', 'relative', 'fifth', 'parallel', 'other']),
    semitones: count.describe("From A's tonic up to B's, -5 to 6"),
    fifths: count.min(0).max(6),
    cents: z.number().describe('How far B is out of tune with A, -50 to 50'),
  })
  .readonly();

const pair = {
  tempo: z
    .strictObject({
      bpm: z.number().positive().describe("Tempo of A's beats in the overlap"),
      ratio: z.number().describe('Beats of B on one beat of A: 1, 2 or 0.5'),
      rateA: z.number().positive(),
      rateB: z.number().positive(),
      change: z.number().min(0).describe('The larger of the two changes, as a share'),
      fits: z.boolean().describe("Whether both stay within the fader's range"),
    })
    .readonly(),
  keys: z.strictObject({ locked: meeting, unlocked: meeting }).readonly().nullable(),
  loudness: z
    .strictObject({ differenceLu: z.number(), gainA: z.number(), gainB: z.number() })
    .readonly()
    .nullable()
    .describe('How much louder B is, and the gain in dB for either record that makes them equal'),
};

const remarks = z.array(remarkSchema).readonly();
const planSchema = z.strictObject({ ...plan, reasons: remarks, cautions: remarks }).readonly();
const schema = z.strictObject({ ...pair, plans: z.array(planSchema).readonly(), obstacles: remarks }).readonly();

/** The closed schema of two records on one count, as the library gives it. @experimental */
export const trackMatchSchema: z.ZodType<TrackMatch> = schema;

type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : never) : never;
const same: [Same<z.infer<typeof planSchema>, MatchPlan>, Same<z.infer<typeof schema>, TrackMatch>] = [true, true];
void same;

const says = z.string().describe('The sentence');
const said = z.array(z.union(remarkSchema.options.map((option) => option.extend({ says }))));
const record = z.strictObject({ file: z.string(), audioDigest: z.string() });

/**
 * What `barwise match --json` prints, as JSON Schema (draft-07): the match with a sentence beside every kind.
 * @experimental
 */
export function matchJsonSchema(): Record<string, unknown> {
  const printed = z.strictObject({
    schemaVersion: z.literal(MATCH_VERSION),
    a: record,
    b: record,
    language: z.string().describe('Of the sentences'),
    ...pair,
    plans: z
      .array(z.strictObject({ ...plan, sentence: z.string(), reasons: said, cautions: said }))
      .describe('Best first'),
    obstacles: said.describe('Why there is no better plan than a cut, where that is so'),
  });
  return z.toJSONSchema(printed, { target: 'draft-7', reused: 'ref' });
}
