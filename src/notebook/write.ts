import { writeAtomically } from '../audio/index.js';
import type { Cell, MimeBundle, Notebook, Output } from './nbformat.js';
import { isJsonType } from './read.js';

/**
 * Writes a notebook as the format's own tools do: texts as lists of lines, keys sorted, one space of indentation, so
 * that versions compare well. Throws BarwiseError `cannot-write`.
 * @experimental
 */
export async function writeNotebook(file: string, notebook: Notebook): Promise<void> {
  await writeAtomically(file, [Buffer.from(formatNotebook(notebook))]);
}

/** The text of a notebook file. @experimental */
export function formatNotebook(notebook: Notebook): string {
  return JSON.stringify(sorted({ ...notebook, cells: notebook.cells.map(storedCell) }), null, 1) + '\n';
}

function storedCell(cell: Cell): unknown {
  const source = lines(cell.source);
  return cell.cell_type === 'code' ? { ...cell, source, outputs: cell.outputs.map(storedOutput) } : { ...cell, source };
}

function storedOutput(output: Output): unknown {
  if (output.output_type === 'stream') return { ...output, text: lines(output.text) };
  if (output.output_type === 'error') return output;
  return { ...output, data: storedBundle(output.data) };
}

function storedBundle(data: MimeBundle): unknown {
  return Object.fromEntries(
    Object.entries(data).map(([type, value]) => [
      type,
      typeof value === 'string' && !isJsonType(type) && !isBinary(type) ? lines(value) : value,
    ]),
  );
}

/** Pictures are base64 in one string, save SVG, which is text. */
function isBinary(type: string): boolean {
  return /^(image|audio|video)\//.test(type) && type !== 'image/svg+xml';
}

/** A text as its lines, each with its own line end. */
function lines(text: string): string[] {
  return text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== 'object') return value;
  const entries = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return Object.fromEntries(entries.map(([key, inner]) => [key, sorted(inner)]));
}
