import { open, stat } from 'node:fs/promises';
import { extname } from 'node:path';
import { BarwiseError } from '../units/index.js';

/** What a kind of result looks like on disk: its ending and how one can tell that such a file stands there already. */
export interface OutputKind {
  readonly ending: string;
  readonly is: (start: string) => boolean;
}

export const PDF_KIND: OutputKind = { ending: '.pdf', is: (start) => start.startsWith('%PDF') };
export const NOTEBOOK_KIND: OutputKind = { ending: '.ipynb', is: (start) => /"(cells|nbformat)"/.test(start) };

const START_BYTES = 2048;

export const SVG_KIND: OutputKind = { ending: '.svg', is: (start) => start.includes('<svg') };
export const PNG_KIND: OutputKind = { ending: '.png', is: (start) => start.startsWith('\x89PNG') };

/**
 * Makes sure that writing a result loses nothing: the name has the right ending, and what stands there, if anything,
 * is an earlier result of the same kind, unless somebody has said that it may go. Throws BarwiseError `bad-option`.
 */
export async function checkOutputFile(file: string, kind: OutputKind, overwrite = false): Promise<void> {
  if (extname(file).toLowerCase() !== kind.ending) {
    throw new BarwiseError(
      'bad-option',
      `The result cannot be called ${file}: give a name that ends in ${kind.ending}.`,
    );
  }
  if (overwrite) return;
  const there = await stat(file).catch(() => null);
  if (there === null) return;
  if (there.isFile() && (there.size === 0 || kind.is(await startOf(file)))) return;
  throw new BarwiseError('bad-option', `${file} is there already and was not made by Barwise: give another name.`, {
    file,
  });
}

async function startOf(file: string): Promise<string> {
  const handle = await open(file);
  try {
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(START_BYTES), 0, START_BYTES, 0);
    return buffer.toString('latin1', 0, bytesRead);
  } finally {
    await handle.close();
  }
}
