import type { Fraction } from './quantities.js';
import { BarwiseError } from './errors.js';

/** A step of the work and how much of it is done. @public */
export interface Progress {
  /** In plain words, as a person may read it. */
  readonly stage: string;
  /** Of all the work, not of the stage. */
  readonly done: Fraction;
}

/** Gets every step of the work; it must not throw. @public */
export type OnProgress = (progress: Progress) => void;

/** What every long call takes beside its own options. @public */
export interface RunOptions {
  /** Called as the work goes on. */
  readonly onProgress?: OnProgress | undefined;
  /** Ends the work with a BarwiseError `aborted`. */
  readonly signal?: AbortSignal | undefined;
}

/** Throws `aborted` when the caller has cancelled. @public */
export function throwIfAborted(signal: AbortSignal | undefined): void {
  if (signal?.aborted) throw new BarwiseError('aborted', 'Stopped before the work was done.');
}
