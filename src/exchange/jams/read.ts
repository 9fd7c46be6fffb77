import { z } from 'zod';
import { BarwiseError, type Seconds } from '../../units/index.js';

/** One thing that was annotated: when, how long, what. What `value` may be depends on the namespace. @public */
export interface JamsObservation {
  /** Seconds. */
  readonly time: Seconds;
  /** Seconds. */
  readonly duration: Seconds;
  readonly value: unknown;
  readonly confidence: unknown;
}

/** Observations of one kind, in the order of their times. @public */
export interface JamsAnnotation {
  readonly namespace: string;
  readonly data: readonly JamsObservation[];
}

/** A file of annotations in JAMS, as far as it is read here. @public */
export interface Jams {
  /** Of the file, for messages. */
  readonly name: string;
  readonly title: string | null;
  readonly duration: Seconds | null;
  readonly annotations: readonly JamsAnnotation[];
}

const time = z.number().min(0);
const sparse = z.object({ time, duration: time, value: z.unknown(), confidence: z.unknown() });
const dense = z.object({
  time: z.array(time),
  duration: z.array(time),
  value: z.array(z.unknown()),
  confidence: z.array(z.unknown()),
});
const annotation = z.object({
  annotation_metadata: z.looseObject({}),
  namespace: z.string(),
  data: z.union([z.array(sparse), dense]),
  sandbox: z.looseObject({}).optional(),
});
const file = z.object({
  file_metadata: z.object({ title: z.string().optional(), duration: time.nullish() }).optional(),
  annotations: z.array(annotation),
});

/**
 * Reads annotations in JAMS: Humphrey et al., "JAMS: a JSON annotated music specification for reproducible MIR research",
 * ISMIR 2014. What is checked is what its published schema demands of the parts that are read.
 *
 * @public
 * @param json what `JSON.parse` gave
 * @param name of the file, for messages
 * @throws BarwiseError `damaged`, naming the first field that is wrong
 */
export function readJams(json: unknown, name = 'The annotations'): Jams {
  const result = file.safeParse(json);
  if (!result.success) throw damaged(name, result.error.issues[0].path.join('.') || 'the whole of it');
  const { file_metadata: about, annotations } = result.data;
  return {
    name,
    title: about?.title ?? null,
    duration: about?.duration ?? null,
    annotations: annotations.map(({ namespace, data }) => ({
      namespace,
      data: (Array.isArray(data) ? data : rowsOf(data, namespace, name)).toSorted((a, b) => a.time - b.time),
    })),
  };
}

/** Says which field of which file is no JAMS. */
export function damaged(name: string, field: string): BarwiseError {
  return new BarwiseError(
    'damaged',
    `${name} is not a valid JAMS file: ${field} is missing or not what the JAMS schema asks for; write it anew.`,
    { file: name },
  );
}

/** Dense data are columns; they must be of one length. */
function rowsOf(data: z.infer<typeof dense>, namespace: string, name: string): JamsObservation[] {
  const { length } = data.time;
  const column = (['duration', 'value', 'confidence'] as const).find((c) => data[c].length !== length);
  if (column !== undefined) throw damaged(name, `${column} of ${namespace}`);
  return data.time.map((at, i) => ({
    time: at,
    duration: data.duration[i],
    value: data.value[i],
    confidence: data.confidence[i],
  }));
}
