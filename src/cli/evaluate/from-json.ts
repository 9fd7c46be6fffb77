import { z } from 'zod';
import {
  estimateOfAnalysis,
  estimateOfJams,
  readArrangementTruth,
  readTruth,
  tempoOfBeats,
  truthOfJams,
  type Estimate,
  type Truth,
} from '../../evaluation/index.js';
import { readJams } from '../../exchange/index.js';
import { parseTrackAnalysis } from '../../track/index.js';
import { BarwiseError, MODES, PITCH_CLASSES } from '../../units/index.js';

const object = z.looseObject({});
const count = z.number().int();

/** What scores ask of the truth that the arranger writes beside its tracks. */
const arrangement = z.looseObject({
  bpm: z.number().positive(),
  beatsPerBar: count.positive(),
  beats: z.array(z.number()).min(2),
  bars: z.array(z.looseObject({ number: count, start: z.number() })),
  phrases: z.array(z.looseObject({ start: z.number() })),
  sections: z.array(z.looseObject({ start: z.number(), end: z.number(), function: z.string() })),
  key: z.looseObject({ tonic: z.enum(PITCH_CLASSES), mode: z.enum(MODES) }),
});

/**
 * Reads what is true of a track: JAMS, our own truth (docs/command.md), the truth of an arranged track, or a finished
 * analysis that is taken for true.
 *
 * @param json what `JSON.parse` gave
 * @param id of the track
 * @param file for messages
 * @throws BarwiseError `damaged`, naming what is wrong
 */
export function truthFromJson(json: unknown, id: string, file: string): Truth {
  const fields = fieldsOf(json, file);
  if ('annotations' in fields) return truthOfJams(readJams(json, file), id);
  if ('schemaVersion' in fields) return truthOfAnalysis(id, estimateOfAnalysis(parseTrackAnalysis(json)));
  if ('phrases' in fields) {
    const truth = checked(arrangement, json, file);
    return readArrangementTruth(id, truth as never, truth.beats[truth.beats.length - 1], '');
  }
  try {
    return readTruth({ id, group: '', downbeats: [], ...fromBeats(fields), ...fields });
  } catch (error) {
    throw error instanceof z.ZodError ? damagedTruth(file, error) : error;
  }
}

/**
 * Reads what somebody says of a track: JAMS or a finished analysis.
 *
 * @throws BarwiseError `damaged`, naming what is wrong
 */
export function estimateFromJson(json: unknown, file: string): Estimate {
  return 'annotations' in fieldsOf(json, file)
    ? estimateOfJams(readJams(json, file))
    : estimateOfAnalysis(parseTrackAnalysis(json));
}

function fieldsOf(json: unknown, file: string): Record<string, unknown> {
  return checked(object, json, file);
}

function checked<T>(schema: z.ZodType<T>, json: unknown, file: string): T {
  const result = schema.safeParse(json);
  if (result.success) return result.data;
  throw damagedTruth(file, result.error);
}

function damagedTruth(file: string, error: z.ZodError): BarwiseError {
  const where = error.issues[0].path.join('.') || 'the whole of it';
  return new BarwiseError(
    'damaged',
    `${file} cannot be compared with: ${where} is missing or of the wrong kind; give JAMS, a truth file or a finished analysis.`,
    { file },
  );
}

/** Analyses know nothing of what is unknown: their groups count everywhere. */
function truthOfAnalysis(id: string, said: Estimate): Truth {
  return {
    id,
    group: '',
    maker: id,
    bpm: said.bpm,
    beatsPerBar: 4,
    duration: said.sections?.at(-1)?.end ?? 0,
    beats: said.beats ?? [],
    downbeats: said.downbeats ?? [],
    groupStarts: said.groupStarts ?? [],
    groupsUnknown: [],
    phraseStarts: said.phraseStarts ?? [],
    sections: said.sections ?? [],
    key: said.key ?? null,
  };
}

/** What a truth file may leave out because its beats tell; without beats, the schema says that they are missing. */
function fromBeats({ beats }: Record<string, unknown>): { bpm: number; duration_s: number } {
  const list = z.array(z.number()).min(2).safeParse(beats);
  if (!list.success) return { bpm: 1, duration_s: 1 };
  return { bpm: tempoOfBeats(list.data) ?? 1, duration_s: Math.max(list.data[list.data.length - 1], 1e-3) };
}
