import { basename, resolve } from 'node:path';
import { throwIfAborted, type RunOptions, type Seconds } from '../units/index.js';
import { writeAtomically } from '../audio/index.js';
import { notebookToHtml } from './html.js';
import { startKernel, type CellEnd } from './kernel/process.js';
import { leanNotebook } from './lean.js';
import type { Cell, CodeCell, Notebook, Output } from './nbformat.js';
import { collectOutputs } from './outputs.js';
import { withParameters, type Parameters } from './parameters.js';
import { readNotebook } from './read.js';
import { writeNotebook } from './write.js';

/** What to run and where its results go. @experimental */
export interface NotebookRun {
  /** The notebook file; it is only read. */
  readonly notebook: string;
  /** Values for the names that its cell tagged `parameters` declares. */
  readonly parameters?: Parameters;
  /** The executed notebook is written here, also when a cell fails. It may be the notebook itself. */
  readonly out: string;
  /** A page for reading is written here as well. */
  readonly html?: string;
  /** Working folder of the cells: relative file names start there. By default the one of this process. */
  readonly folder?: string;
  /** Keeps the executed notebook small: charts as pictures without their data, no sound. The page has all of it. */
  readonly lean?: boolean;
  /** Longest time that one cell may take, 600 s by default. */
  readonly timeout?: Seconds;
}

/** What came of it. @experimental */
export interface NotebookResult {
  readonly out: string;
  readonly html: string | null;
  /** Code cells that were run, and that there are. */
  readonly ran: number;
  readonly cells: number;
  /** The cell that failed (from 1, among the code cells) and its error; `null` when all went well. */
  readonly failure: { readonly cell: number; readonly name: string; readonly message: string } | null;
}

const DEFAULT_TIMEOUT: Seconds = 600;

/**
 * Executes a notebook without Jupyter, cell by cell in a process of its own, and writes it with its outputs. A failing
 * cell ends the run; what was made before it is kept.
 * @experimental
 * @throws BarwiseError `file-missing`, `unsupported-format`, `bad-option` (an unknown parameter), `missing-package`,
 * `cannot-write`, `aborted`
 */
export async function runNotebook(run: NotebookRun, options: RunOptions = {}): Promise<NotebookResult> {
  throwIfAborted(options.signal);
  const source = cleared(withParameters(await readNotebook(run.notebook), run.parameters ?? {}));
  const executed = await execute(source, run, options);
  await writeNotebook(run.out, run.lean ? leanNotebook(executed.notebook) : executed.notebook);
  if (run.html !== undefined) {
    const page = await notebookToHtml(executed.notebook, { title: basename(run.out, '.ipynb') });
    await writeAtomically(run.html, [Buffer.from(page)]);
  }
  throwIfAborted(options.signal);
  const { ran, cells, failure } = executed;
  return { out: run.out, html: run.html ?? null, ran, cells, failure };
}

async function execute(
  notebook: Notebook,
  run: NotebookRun,
  { onProgress, signal }: RunOptions,
): Promise<{ notebook: Notebook } & Omit<NotebookResult, 'out' | 'html'>> {
  const total = notebook.cells.filter(isRunnable).length;
  const kernel = startKernel(resolve(run.folder ?? process.cwd()));
  const cells: Cell[] = [];
  let ran = 0;
  let failure: NotebookResult['failure'] = null;
  try {
    for (const cell of notebook.cells) {
      if (!isRunnable(cell) || failure || signal?.aborted) {
        cells.push(cell);
        continue;
      }
      ran++;
      onProgress?.({ stage: stageOf(cells, ran, total), done: (ran - 1) / total });
      const collector = collectOutputs(ran);
      const limits = { cell: ran, timeout: run.timeout ?? DEFAULT_TIMEOUT, signal };
      const end = await kernel.run(cell.source, (message) => collector.add(message), limits);
      const outputs = collector.outputs();
      cells.push({ ...cell, execution_count: ran, outputs });
      if (end !== 'ok') failure = failureOf(ran, end, outputs);
    }
  } finally {
    kernel.close();
  }
  onProgress?.({ stage: 'done', done: 1 });
  return { notebook: { ...notebook, metadata: metadataOf(notebook), cells }, ran, cells: total, failure };
}

function isRunnable(cell: Cell): cell is CodeCell {
  return cell.cell_type === 'code' && cell.source.trim() !== '';
}

/** "cell 3 of 12: Onsets", after the last heading above the cell. */
function stageOf(before: readonly Cell[], number: number, total: number): string {
  const headings = before.flatMap((cell) =>
    cell.cell_type === 'markdown' ? (cell.source.match(/^#+ .+$/gm) ?? []) : [],
  );
  const heading = headings[headings.length - 1]?.replace(/^#+ /, '');
  return `cell ${number} of ${total}${heading === undefined ? '' : `: ${heading}`}`;
}

function failureOf(cell: number, end: CellEnd, outputs: readonly Output[]): NotebookResult['failure'] {
  const error = outputs.findLast((output) => output.output_type === 'error');
  return { cell, name: error?.ename ?? end, message: error?.evalue ?? 'The cell was stopped.' };
}

function cleared(notebook: Notebook): Notebook {
  const cells = notebook.cells.map((cell) =>
    cell.cell_type === 'code' ? { ...cell, execution_count: null, outputs: [] } : cell,
  );
  return { ...notebook, cells };
}

function metadataOf({ metadata }: Notebook): Notebook['metadata'] {
  return {
    kernelspec: { display_name: 'Barwise (TypeScript)', language: 'typescript', name: 'barwise' },
    language_info: { name: 'typescript', file_extension: '.ts', mimetype: 'text/typescript' },
    ...metadata,
  };
}
