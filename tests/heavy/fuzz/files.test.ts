import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { FuzzReport, FuzzTask } from './child.js';

/** Case i is always the same damaged file; a case that ever went wrong is named here and stays. */
const PLAN: Record<FuzzTask['mode'], { cases: number; batch: number; kept: number[] }> = {
  open: { cases: 20_000, batch: 5000, kept: [75, 5445] },
  read: { cases: 480, batch: 240, kept: [] },
};
/** Other cases than the usual ones: `FUZZ_FROM=100000` tries as many from there on. */
const FIRST = Number(process.env['FUZZ_FROM'] ?? 0);
/** Beside what Node and the decoders need to start. */
const MOST_MEMORY = 700e6;
/** A batch that says nothing for so long hangs; to start, and to make the whole files, it may take longer. */
const SILENCE_MS = 120_000;
const START_MS = 900_000;

describe.each(['open', 'read'] as const)('damaged files, %s', (mode) => {
  const { cases, batch, kept } = PLAN[mode];
  it(
    `${cases} of them end in a sentence or in samples, in time and in bounded memory`,
    { timeout: 3_600_000 },
    async () => {
      const reports: FuzzReport[] = [];
      for (let from = FIRST; from < FIRST + cases; from += batch)
        reports.push(await run({ mode, from, to: Math.min(FIRST + cases, from + batch) }));
      for (const i of kept) reports.push(await run({ mode, from: i, to: i + 1 }));
      const ends: Record<string, number> = {};
      for (const report of reports)
        for (const [end, times] of Object.entries(report.ends)) ends[end] = (ends[end] ?? 0) + times;
      const slowest = Math.max(...reports.map((r) => r.slowestMs));
      const memory = Math.max(...reports.map((r) => r.peakMemory));
      console.log(
        `${mode}: ${JSON.stringify(ends)}, slowest ${slowest.toFixed(0)} ms, memory ${(memory / 1e6).toFixed(0)} MB`,
      );
      expect(reports.flatMap((r) => r.faults)).toEqual([]);
      expect(memory).toBeLessThan(MOST_MEMORY);
      // The damage reaches beyond the first bytes, and does not spare everything either.
      expect(Object.keys(ends).length).toBeGreaterThan(3);
    },
  );
});

/** Runs a batch in a process of its own, which may die: then the case it died of is a fault. */
function run(task: FuzzTask): Promise<FuzzReport> {
  const child = fork(fileURLToPath(new URL('./child.ts', import.meta.url)), { execArgv: ['--import', 'tsx'] });
  let last = task.from;
  let report: FuzzReport | null = null;
  let timer: NodeJS.Timeout | undefined;
  const watch = (ms: number) => {
    clearTimeout(timer);
    timer = setTimeout(() => child.kill('SIGKILL'), ms);
  };
  watch(START_MS);
  child.on('message', (message: number | FuzzReport) => {
    if (typeof message === 'number') last = message;
    else report = message;
    watch(SILENCE_MS);
  });
  child.send(task);
  return new Promise((resolve) => {
    child.on('close', (code, signal) => {
      clearTimeout(timer);
      const died = { cases: last - task.from, ends: {}, slowestMs: 0, peakMemory: 0 };
      resolve(report ?? { ...died, faults: [`${last}: the process ended with ${signal ?? code}`] });
    });
  });
}
