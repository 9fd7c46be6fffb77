import { availableParallelism, totalmem } from 'node:os';

/** What one analysis may need while its decoder runs: 900 MB is the limit the program is held to. */
const BYTES_PER_WORKER = 900e6;

/** How many tracks to analyse at once: one a core, but never more than half the memory can hold. */
export function defaultWorkers(cores = availableParallelism(), memoryBytes = totalmem()): number {
  return Math.max(1, Math.min(cores, Math.floor(memoryBytes / 2 / BYTES_PER_WORKER)));
}
