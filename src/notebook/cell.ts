import type { OnProgress, RunOptions } from '../units/index.js';

/** What the kernel offers to the cell that is running. */
interface RunningCell {
  readonly signal: AbortSignal;
  clear(wait: boolean): void;
}

/** The kernel leaves its offer under this name: several copies of the library may be loaded, but one kernel. */
const CELL = Symbol.for('barwise.cell');

function runningCell(): RunningCell | undefined {
  return (globalThis as Record<symbol, unknown>)[CELL] as RunningCell | undefined;
}

/**
 * Takes away what the running cell has shown so far.
 * @experimental
 * @param wait until the next thing is shown, so that nothing flickers
 */
export function clearOutput(wait = false): void {
  runningCell()?.clear(wait);
}

const CELLS = 24;
/** Least time between two drawings, in milliseconds. */
const PAUSE = 100;

/**
 * Options for long calls: a bar that overwrites itself under the cell and goes away when the work is done, and an end
 * to the work when the cell is interrupted.
 * @experimental
 * @example await analyseTrack('track.mp3', progress())
 */
export function progress(write: (text: string) => void = (text) => void process.stdout.write(text)): RunOptions & {
  readonly onProgress: OnProgress;
} {
  let [width, last, shown] = [0, -Infinity, ''];
  const onProgress: OnProgress = ({ stage, done }) => {
    const isDone = done >= 1;
    const now = performance.now();
    if (!isDone && now - last < PAUSE) return;
    last = now;
    const full = Math.round(Math.min(Math.max(done, 0), 1) * CELLS);
    const line = `${'█'.repeat(full)}${'░'.repeat(CELLS - full)} ${String(Math.round(done * 100)).padStart(3)} %  ${stage}`;
    if (!isDone && line === shown) return;
    // Front ends that keep what a carriage return leaves behind are given spaces to go over it.
    const text = isDone ? `\r${' '.repeat(width)}\r` : `\r${line.padEnd(width)}`;
    if (isDone && width === 0) return;
    width = isDone ? 0 : Math.max(width, line.length);
    shown = isDone ? '' : line;
    write(text);
  };
  const signal = runningCell()?.signal;
  return signal ? { onProgress, signal } : { onProgress };
}
