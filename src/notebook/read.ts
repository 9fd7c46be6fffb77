import { readFile } from 'node:fs/promises';
import { z } from 'zod';
import { BarwiseError } from '../units/index.js';
import type { Cell, Notebook } from './nbformat.js';

const text = z.union([z.string(), z.array(z.string())]).transform((t) => (typeof t === 'string' ? t : t.join('')));
const metadata = z.record(z.string(), z.unknown()).default({});
const bundle = z.record(z.string(), z.unknown()).transform((data) => {
  const joined = Object.entries(data).map(([type, value]) => [type, isJsonType(type) ? value : joinedText(value)]);
  return Object.fromEntries(joined) as Record<string, unknown>;
});
const count = z.number().int().nullable().default(null);
const output = z.discriminatedUnion('output_type', [
  z.object({ output_type: z.literal('stream'), name: z.enum(['stdout', 'stderr']), text }),
  z.object({ output_type: z.literal('display_data'), data: bundle, metadata }),
  z.object({ output_type: z.literal('execute_result'), execution_count: count, data: bundle, metadata }),
  z.object({ output_type: z.literal('error'), ename: z.string(), evalue: z.string(), traceback: z.array(z.string()) }),
]);
const cell = z.discriminatedUnion('cell_type', [
  z.looseObject({ cell_type: z.enum(['markdown', 'raw']), id: z.string().optional(), metadata, source: text }),
  z.object({
    cell_type: z.literal('code'),
    id: z.string().optional(),
    metadata,
    source: text,
    execution_count: count,
    outputs: z.array(output).default([]),
  }),
]);
const notebook = z.object({ nbformat: z.literal(4), nbformat_minor: z.number().int(), metadata, cells: z.array(cell) });

/**
 * Reads a notebook of nbformat 4; older minor versions get the cell ids of 4.5.
 * @experimental
 * @throws BarwiseError `file-missing`, `file-unreadable` or `unsupported-format`
 */
export async function readNotebook(file: string): Promise<Notebook> {
  const source = await readFile(file, 'utf8').catch((cause: unknown) => {
    const missing = (cause as NodeJS.ErrnoException).code === 'ENOENT';
    throw missing
      ? new BarwiseError('file-missing', `There is no notebook ${file}: check the name.`, { file, cause })
      : new BarwiseError(
          'file-unreadable',
          `The notebook ${file} could not be read: check that it is a file and yours to read.`,
          { file, cause },
        );
  });
  return parseNotebook(source, file);
}

/**
 * Reads a notebook from its text.
 * @experimental
 * @param file its name, for the sentence of an error
 */
export function parseNotebook(source: string, file = 'the notebook'): Notebook {
  const parsed = notebook.safeParse(parseJson(source));
  if (!parsed.success) {
    const where = parsed.error.issues[0]?.path.join('.') ?? '';
    const place = where === '' ? '' : ` (at ${where})`;
    throw new BarwiseError(
      'unsupported-format',
      `${file} is not a notebook of format 4${place}: open it in a notebook editor and save it again.`,
      { file, cause: parsed.error },
    );
  }
  const taken = new Set<string>();
  const cells = parsed.data.cells.map((c, i) => ({ ...c, id: freshId(c.id, i, taken) })) as Cell[];
  return { nbformat: 4, nbformat_minor: 5, metadata: parsed.data.metadata, cells };
}

/** The format's rule for cell ids: 1 to 64 letters, digits, hyphens and underscores, each id once (nbformat 4.5). */
const CELL_ID = /^[A-Za-z0-9_-]{1,64}$/;

function freshId(id: string | undefined, index: number, taken: Set<string>): string {
  let name = id !== undefined && CELL_ID.test(id) ? id : `cell-${index + 1}`;
  for (let n = 2; taken.has(name); n++) name = `cell-${index + 1}-${n}`;
  taken.add(name);
  return name;
}

function parseJson(source: string): unknown {
  try {
    return JSON.parse(source);
  } catch {
    return undefined;
  }
}

/** Whether a MIME type carries plain data rather than text. */
export function isJsonType(type: string): boolean {
  return type === 'application/json' || /^application\/.*\+json$/.test(type);
}

function joinedText(value: unknown): unknown {
  return Array.isArray(value) ? value.join('') : value;
}
