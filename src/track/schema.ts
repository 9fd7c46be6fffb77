import { z } from 'zod';
import type { TrackAnalysis } from './analysis.js';
import { SCHEMA_VERSION } from './analysis.js';
import { correctionSchema } from './corrections/index.js';
import {
  BarwiseError,
  CHANGES,
  IRREGULARITY_KINDS,
  LAYERS,
  MODES,
  PITCH_CLASSES,
  SECTION_FUNCTIONS,
  STEADINESS,
} from '../units/index.js';
import { bringUp, type VersionedFormat } from './versions.js';

const seconds = z.number().describe('Seconds from the first sample after the encoder delay, to 0.1 ms');
const fraction = z.number().min(0).max(1);
const confidence = fraction.nullable().describe('How sure, 0 to 1; null where it cannot be judged');
const barNumber = z.number().int().describe('1 is the first whole bar; 0 only a partial bar before it');
const text = z.string().nullable();

const source = z.strictObject({
  file: z.string(),
  audioDigest: z.string().describe('SHA-256 (hex) of the encoded audio without tags'),
  durationSeconds: z.number().nonnegative(),
  sampleRate: z.number().positive(),
  channels: z.number().int().positive(),
  codec: z.string(),
  tags: z.strictObject({
    title: text,
    artist: text,
    album: text,
    year: z.number().int().nullable(),
    genre: text,
    comment: text,
  }),
  warnings: z.array(z.strictObject({ code: z.string(), message: z.string() })),
});

const identity = z.strictObject({
  version: z.string(),
  weightsId: z.string(),
  frontEndId: z.string(),
  optionsDigest: z.string(),
  correctionsDigest: z.string(),
});

const tempo = z.strictObject({
  bpm: z.number().positive(),
  confidence,
  alternatives: z.array(z.strictObject({ bpm: z.number().positive(), weight: fraction })),
  steadiness: z.enum(STEADINESS),
  pieces: z.array(z.strictObject({ start: seconds, end: seconds, bpm: z.number().positive() })),
});

const metre = z.strictObject({
  beatsPerBar: z.number().int().positive(),
  confidence,
  alternatives: z.array(z.strictObject({ beatsPerBar: z.number().int().positive(), weight: fraction })),
});

const bar = z.strictObject({
  number: barNumber,
  start: seconds,
  beats: z.number().int().positive(),
  group: z.number().int(),
  groupBar: z.number().int(),
  phrase: z.number().int(),
  phraseBar: z.number().int(),
});

const phrase = z.strictObject({
  number: z.number().int().positive(),
  startBar: barNumber,
  endBar: barNumber,
  start: seconds,
  end: seconds,
  bars: z.number().int().positive(),
  regular: z.boolean(),
  confidence,
});

const section = z.strictObject({
  start: seconds,
  end: seconds,
  startBar: barNumber,
  endBar: barNumber.describe('Inclusive'),
  function: z.enum(SECTION_FUNCTIONS),
  letter: z.string(),
  confidence,
});

const event = z.strictObject({
  time: seconds,
  bar: barNumber,
  beat: z.number().int().positive(),
  layer: z.enum(LAYERS),
  change: z.enum(CHANGES),
  decibels: z.number(),
  confidence,
});

const irregularity = z.strictObject({
  kind: z.enum(IRREGULARITY_KINDS),
  bar: barNumber,
  time: seconds,
  explanation: z.string(),
  confidence,
  parameters: z.record(z.string(), z.union([z.number(), z.string()])).describe('What the explanation is made from'),
  evidence: z.record(z.string(), z.number()).describe('Named numbers, the unit in the name'),
});

const key = z.strictObject({
  tonic: z.enum(PITCH_CLASSES).nullable(),
  mode: z.enum(MODES).nullable(),
  confidence,
  alternatives: z.array(z.strictObject({ tonic: z.enum(PITCH_CLASSES), mode: z.enum(MODES), weight: fraction })),
});

const loudness = z.strictObject({
  integratedLufs: z.number().nullable(),
  truePeakDbtp: z.number().nullable(),
  rangeLu: z.number().nullable(),
});

/** The closed schema of an analysis: plain JSON, nothing optional, nothing unknown. */
const schema = z.strictObject({
  schemaVersion: z.literal(SCHEMA_VERSION),
  source,
  analysis: identity,
  corrections: z.array(correctionSchema),
  tempo,
  metre,
  beats: z.array(seconds),
  downbeat: z.strictObject({
    confidence,
    alternatives: z.array(z.strictObject({ shiftBeats: z.number().int(), weight: fraction })),
  }),
  beatPhase: z.strictObject({
    confidence,
    alternatives: z.array(z.strictObject({ shift: fraction, weight: fraction })),
  }),
  swing: fraction.nullable(),
  bars: z.array(bar),
  phraseBars: z.number().int().positive().describe("Bars of the track's usual phrase"),
  phrases: z.array(phrase),
  sections: z.array(section),
  events: z.array(event),
  layers: z.strictObject(
    Object.fromEntries(LAYERS.map((l) => [l, z.array(fraction.nullable())])) as Record<
      (typeof LAYERS)[number],
      z.ZodArray<z.ZodNullable<z.ZodNumber>>
    >,
  ),
  irregularities: z.array(irregularity),
  key,
  loudness,
});

/** The closed schema of an analysis; its inferred type and `TrackAnalysis` are held equal by the compiler. @public */
export const trackAnalysisSchema: z.ZodType<TrackAnalysis> = schema;

type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : never) : never;
const same: Same<z.infer<typeof schema>, TrackAnalysis> = true;
void same;

type Data = Readonly<Record<string, unknown>>;

/** Analyses as they are kept: every version that there was, and how it becomes the next. */
export const ANALYSIS_FORMAT: VersionedFormat<Data> = {
  name: 'an analysis',
  version: SCHEMA_VERSION,
  steps: {
    // Before corrections there were none: what was found was found under nothing.
    1: (analysis) => ({ ...analysis, corrections: analysis['corrections'] ?? [], schemaVersion: 2 }),
  },
};

/**
 * Reads a value from outside as an analysis; one of an earlier schema version is brought up to this one.
 *
 * @public
 * @param value what `JSON.parse` gave
 * @throws BarwiseError `damaged` naming the first field that is wrong; `unsupported-format` for a newer schema version
 * @example parseTrackAnalysis(JSON.parse(await readFile('track.json', 'utf8'))).tempo.bpm
 */
export function parseTrackAnalysis(value: unknown): TrackAnalysis {
  const result = schema.safeParse(upToDate(value));
  if (result.success) return result.data;
  const first = result.error.issues[0];
  const where = first === undefined ? 'the data' : `"${first.path.join('.')}" (${first.message})`;
  throw new BarwiseError(
    'damaged',
    `This is not an analysis of schema version ${SCHEMA_VERSION}: ${where} is wrong; analyse the track again.`,
  );
}

/** What has no version is left to the schema, which names what is wrong. */
function upToDate(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || !('schemaVersion' in value)) return value;
  return bringUp<Data>(value, value.schemaVersion, ANALYSIS_FORMAT);
}

/** What `barwise analyse --json` prints of a track, as JSON Schema (draft-07, which most tools read). @public */
export function trackAnalysisJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(schema, { target: 'draft-7' });
}
