import { afterAll, describe, expect, it } from 'vitest';
import { tmpdir } from 'node:os';
import type { CellMessage } from '../../src/notebook/outputs.js';
import { startKernel } from '../../src/notebook/kernel/process.js';

describe('the process that runs cells', () => {
  const kernel = startKernel(tmpdir());
  afterAll(() => kernel.close());
  let cell = 0;
  async function run(code: string, during?: () => void) {
    const messages: CellMessage[] = [];
    cell++;
    if (during) setTimeout(during, 300);
    const end = await kernel.run(code, (message) => messages.push(message), { cell });
    const error = messages.find((m) => m.kind === 'error');
    const result = messages.find((m) => m.kind === 'result');
    return { end, messages, traceback: error?.traceback ?? [], result: result?.data['text/plain'] };
  }

  it('has the library at hand without an import, and lets a cell use its names for its own', async () => {
    const { result } = await run(
      '[analyseTrack, show, charts.waveformChart, reports.printCards].map((f) => typeof f).join()',
    );
    expect(result).toBe('function,function,function,function');
    expect((await run("let show = 'mine';\nshow")).result).toBe('mine');
  });

  it('names the line of the cell, whatever the compiler made of it', async () => {
    await run(
      'interface Bar { beats: number }\n\nfunction beatsOf(bar: Bar | null) {\n  // may be null\n  return bar!.beats;\n}',
    );
    const { traceback } = await run('type Unused = string;\n\n\nbeatsOf(null);');
    expect(traceback).toEqual([
      "TypeError: Cannot read properties of null (reading 'beats')",
      `  line 5 of cell ${cell - 1} in beatsOf`,
      '    5 |   return bar!.beats;',
      expect.stringMatching(/^ +\^$/),
      '  line 4 of this cell',
    ]);
  });

  it('refuses to ask for input, instead of waiting for it', async () => {
    const { traceback } = await run(
      "import { createInterface } from 'node:readline/promises';\nawait createInterface({ input: process.stdin }).question('bpm? ');",
    );
    expect(traceback[0]).toContain('A cell cannot ask for input');
    expect(traceback[1]).toContain('line 2 of this cell');
  });

  it('says what to do where a loop that waits stands alone', async () => {
    const { traceback } = await run('for await (const x of [1]) console.log(x);');
    expect(traceback.join(' ')).toContain('put it into an async function');
    expect((await run('const all = async () => { for await (const x of [1]) return x; };\nawait all()')).result).toBe(
      '1',
    );
  });

  it('takes names of earlier cells in short object literals, and still points at the right column', async () => {
    await run('const bars = 8; const beats = 4;');
    expect((await run('JSON.stringify({ bars, beats })')).result).toBe('{"bars":8,"beats":4}');
    const { traceback } = await run('const x = { bars, beats }; const y: string = 8;');
    expect(traceback[0]).toBe("line 1, column 34: Type 'number' is not assignable to type 'string'.");
  });

  it('is interrupted in a loop, in a wait, and in a loop after a wait, and keeps every name', async () => {
    for (const endless of ['for (;;) {}', 'await new Promise(() => undefined);', 'await 0;\nfor (;;) {}']) {
      const { end, traceback } = await run(endless, () => kernel.interrupt());
      expect([end, traceback]).toEqual(['failed', ['The cell was interrupted.']]);
    }
    expect((await run('bars * beats')).result).toBe('32');
  });

  it('is interrupted before it is ready, and just when a cell begins', async () => {
    const fresh = startKernel(tmpdir());
    const said: CellMessage[] = [];
    const first = fresh.run('for (;;) {}', (message) => said.push(message), { cell: 1 });
    fresh.interrupt();
    expect(await first).toBe('failed');
    expect(said).toMatchObject([{ ename: 'Interrupted' }]);
    const second = fresh.run('await 0; for (;;) {}', (message) => said.push(message), { cell: 2 });
    fresh.interrupt();
    expect(await second).toBe('failed');
    expect(await fresh.run('1', () => undefined, { cell: 3 })).toBe('ok');
    fresh.close();
  });

  it('tells the library that the cell is interrupted', async () => {
    const wait =
      'await new Promise((_, reject) => progress().signal!.addEventListener("abort", () => reject(new Error("x"))));';
    const { end } = await run(wait, () => kernel.interrupt());
    expect(end).toBe('failed');
  });

  it('knows what can follow, what a name means, and whether code is whole', async () => {
    expect((await kernel.complete('charts.wavef', 12))?.matches).toEqual(['waveformChart']);
    const text = (await kernel.inspect('analyseTrack', 5))?.text ?? '';
    expect(text).toMatch(/^function analyseTrack\(file: string/);
    expect(text).toContain('file: path of an audio file');
    expect(await kernel.inspect('nothingOfTheKind', 3)).toBeNull();
    expect([
      await kernel.isComplete('1'),
      await kernel.isComplete('if (1) {'),
      await kernel.isComplete('let 1a'),
    ]).toEqual([{ status: 'complete' }, { status: 'incomplete', indent: '  ' }, { status: 'invalid' }]);
  });

  it('knows what a person has made in earlier cells: names, members, types; lets a constant be declared anew', async () => {
    await run('const made = { phrases: [{ startBar: 1 }] };\nconst first = made.phrases[0];');
    expect((await kernel.complete('made.phr', 8))?.matches).toContain('phrases');
    expect((await kernel.complete('first.st', 8))?.matches).toContain('startBar');
    expect((await kernel.inspect('first.startBar', 12))?.text).toContain('startBar: number');
    expect((await run("const first = await Promise.resolve('anew');\nfirst.length")).result).toBe('4');
    expect((await run('analyseTrak("x")')).traceback[0]).toMatch(/^line 1, column 1: Cannot find name 'analyseTrak'/);
  });
});
