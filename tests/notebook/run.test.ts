import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readNotebook, runNotebook, type Output } from '../../src/notebook/index.js';
import { code, notebookOf, prose, type StoredCell } from './make.js';

async function run(cells: readonly StoredCell[], options: { timeout?: number } = {}) {
  const { folder, file } = await notebookOf(...cells);
  const out = join(folder, 'out.ipynb');
  const stages: string[] = [];
  const promise = runNotebook(
    { notebook: file, out, folder, ...options },
    { onProgress: ({ stage }) => stages.push(stage) },
  );
  return { promise, out, stages, folder };
}

async function outputsOf(file: string): Promise<readonly (readonly Output[])[]> {
  const { cells } = await readNotebook(file);
  return cells.flatMap((cell) => (cell.cell_type === 'code' ? [cell.outputs] : []));
}

describe('the notebook runner', () => {
  it('runs the cells in order, with types, promises and names that live on', async () => {
    const { promise, out, stages, folder } = await run([
      prose('# First steps'),
      code('interface Bar { beats: number }\nconst bar: Bar = { beats: 4 };\nconsole.log("bar", bar.beats);'),
      code('await new Promise((done) => setTimeout(done, 5));\nbar.beats * 8'),
      code('process.cwd()'),
      code('console.error("careful");'),
    ]);
    expect(await promise).toEqual({ out, html: null, ran: 4, cells: 4, failure: null });
    const [first, second, third, fourth] = await outputsOf(out);
    expect(first).toEqual([{ output_type: 'stream', name: 'stdout', text: 'bar 4\n' }]);
    expect(second).toEqual([
      { output_type: 'execute_result', execution_count: 2, data: { 'text/plain': '32' }, metadata: {} },
    ]);
    expect(third[0]).toMatchObject({ data: { 'text/plain': folder } });
    expect(fourth).toEqual([{ output_type: 'stream', name: 'stderr', text: 'careful\n' }]);
    expect(stages).toEqual([
      'cell 1 of 4: First steps',
      'cell 2 of 4: First steps',
      'cell 3 of 4: First steps',
      'cell 4 of 4: First steps',
      'done',
    ]);
  });

  it('keeps what was made before a cell that throws, and says which cell and why', async () => {
    const { promise, out } = await run([
      code('console.log("made");'),
      code('function inner() { throw new RangeError("no bar 0"); }\nconsole.log("half");\ninner();'),
      code('console.log("never");'),
    ]);
    expect((await promise).failure).toEqual({ cell: 2, name: 'RangeError', message: 'no bar 0' });
    const [first, second, third] = await outputsOf(out);
    expect(first).toHaveLength(1);
    expect(second.map((o) => o.output_type)).toEqual(['stream', 'error']);
    expect(JSON.stringify(second[1])).not.toContain('node_modules');
    expect(third).toEqual([]);
  });

  it('refuses a cell that does not type-check, with line and column', async () => {
    const { promise, out } = await run([code('const fine = 1;\nconst bpm: number = "fast";')]);
    expect((await promise).failure).toMatchObject({ cell: 1, name: 'TypeScriptError' });
    const [[error]] = await outputsOf(out);
    expect(error).toMatchObject({
      traceback: [
        "line 2, column 7: Type 'string' is not assignable to type 'number'.",
        '    2 | const bpm: number = "fast";',
        '              ^',
      ],
    });
  });

  it('stops a cell that never ends by itself, also in a loop that nothing can interrupt', async () => {
    const sleeping = await run([code('console.log("go");\nawait new Promise(() => undefined);')], { timeout: 1 });
    const looping = await run([code('await 0;\nwhile (true) {}')], { timeout: 1 });
    for (const { promise, out } of [sleeping, looping]) {
      const { failure } = await promise;
      expect(failure).toEqual({
        cell: 1,
        name: 'TimeoutError',
        message: 'The cell took longer than 1 s and was stopped.',
      });
      const [outputs] = await outputsOf(out);
      expect(outputs.filter((o) => o.output_type === 'error')).toHaveLength(1);
    }
  });

  it('survives the death of the process that runs the cells', async () => {
    const leaving = await run([code('console.log("bye");\nprocess.exit(3);'), code('1')]);
    const killed = await run([code('process.kill(process.pid, "SIGSEGV");\nawait new Promise(() => undefined);')]);
    expect((await leaving.promise).failure).toEqual({
      cell: 1,
      name: 'KernelDied',
      message: 'The process that ran the cell ended with exit code 3.',
    });
    expect((await outputsOf(leaving.out))[0][0]).toMatchObject({ text: 'bye\n' });
    expect((await killed.promise).failure?.message).toContain('SIGSEGV');
  });

  it('stops when it is cancelled, and keeps what there is', async () => {
    const { folder, file } = await notebookOf(
      code('console.log("made");'),
      code('await new Promise((done) => setTimeout(done, 60_000));'),
    );
    const out = join(folder, 'out.ipynb');
    const controller = new AbortController();
    const promise = runNotebook(
      { notebook: file, out },
      {
        signal: controller.signal,
        onProgress: ({ stage }) => stage.startsWith('cell 2') && setTimeout(() => controller.abort(), 100),
      },
    );
    await expect(promise).rejects.toMatchObject({ code: 'aborted' });
    expect((await outputsOf(out))[0]).toHaveLength(1);
  });

  it('gives the cell parameters to the notebook in a cell of its own', async () => {
    const { folder, file } = await notebookOf(
      code("let track = 'demo.wav';\nlet bars = 8;", ['parameters']),
      code('`${track} ${bars + 1}`'),
    );
    const out = join(folder, 'out.ipynb');
    const hostile = 'a"b\\`${1}\u2028\n.wav';
    const { failure } = await runNotebook({ notebook: file, out, parameters: { track: hostile } });
    expect(failure).toBeNull();
    const { cells } = await readNotebook(out);
    expect(cells[1].metadata.tags).toEqual(['injected-parameters']);
    expect(cells[2]).toMatchObject({ outputs: [{ data: { 'text/plain': `${hostile} 9` } }] });
    // The notebook itself is only read.
    expect(JSON.parse(await readFile(file, 'utf8'))).toMatchObject({ cells: [{}, { outputs: [] }] });
  });
});

describe('the notebook runner, before it starts', () => {
  it('says what is wrong in one sentence', async () => {
    const { folder, file } = await notebookOf(code('let track = 1;', ['parameters']));
    const out = join(folder, 'out.ipynb');
    await expect(runNotebook({ notebook: join(folder, 'none.ipynb'), out })).rejects.toMatchObject({
      code: 'file-missing',
    });
    await expect(runNotebook({ notebook: file, out, parameters: { tempo: 1 } })).rejects.toMatchObject({
      code: 'bad-option',
      message: 'The notebook has no parameter tempo: it has track.',
    });
  });
});
