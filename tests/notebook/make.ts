import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface StoredCell {
  readonly cell_type: 'code' | 'markdown';
  readonly metadata: object;
  readonly source: string;
  readonly outputs?: readonly unknown[];
  readonly execution_count?: number | null;
}

export function code(source: string, tags: readonly string[] = []): StoredCell {
  return { cell_type: 'code', metadata: { tags }, source, outputs: [], execution_count: null };
}

export function prose(source: string): StoredCell {
  return { cell_type: 'markdown', metadata: {}, source };
}

/** A new folder with a notebook of these cells in it, as an editor of format 4.4 would have saved it. */
export async function notebookOf(...cells: readonly StoredCell[]): Promise<{ folder: string; file: string }> {
  const folder = await mkdtemp(join(tmpdir(), 'barwise-notebook-'));
  const file = join(folder, 'lesson.ipynb');
  await writeFile(file, JSON.stringify({ nbformat: 4, nbformat_minor: 4, metadata: {}, cells }));
  return { folder, file };
}
