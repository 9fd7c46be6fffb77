import { z } from 'zod';
import { correctionSchema } from './correction.js';
import { shellSchema } from './format.js';

const words = {
  said: z.string().max(40).nullable().optional().describe('When it was said: ISO 8601, UTC'),
  from: z.string().max(400).nullable().optional().describe('What it was taken from; nothing for the word of a person'),
};

/** A file of corrections (YAML, read as JSON) as JSON Schema (draft-07, which editors of YAML read). @public */
export function correctionsJsonSchema(): Record<string, unknown> {
  const said = z.union(correctionSchema.options.map((option) => option.extend(words)));
  const file = shellSchema.extend({ corrections: z.array(said).nullable() });
  return z.toJSONSchema(file, { target: 'draft-7', io: 'input' });
}
