import type { Fraction } from './quantities.js';
import { BarwiseError } from './errors.js';

/** A step of the work and how much of it is done. */
export interface Progress {
  readonly stage: string;
  readonly done: Fraction;
}

export type OnProgress = (progress: Progress) => void;

/** What every long call takes beside its own options. */
export interface RunOptions {
  readonly onProgress?: OnProgress | undefined;
  readonly signal?: AbortSignal | undefined;
}

/** Throws `aborted` when the caller has cancelled. */
export function throwIfAborted(signal: AbortSignal | undefined): void {
  if (signal?.aborted) throw new BarwiseError('aborted', 'Stopped before the work was done.');
}
