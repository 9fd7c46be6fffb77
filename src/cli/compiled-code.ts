import { getHeapStatistics, setFlagsFromString } from 'node:v8';

/**
 * By how much the heap of a thread may grow between two collections of all of it, in per cent of what was left by the
 * last. Such a collection also lets go of the compiled code of functions that nothing holds just then, which is most of
 * what analyses a track; by itself V8 makes one a track, and compiles everything again for the next.
 */
const GROWTH_PERCENT = 300;
/** Where the heap reaches this size all the same, V8 is left to its own judgement again: then much is held. */
const MOST_BYTES = 100e6;
const LOOK_EVERY_MS = 1000;

/** Lets what was compiled for one track serve the next, for as long as little is kept in memory; for the whole process. */
export function keepCompiledCode(): void {
  setFlagsFromString(`--heap-growing-percent=${GROWTH_PERCENT}`);
  const looking = setInterval(() => {
    if (getHeapStatistics().used_heap_size < MOST_BYTES) return;
    clearInterval(looking);
    setFlagsFromString('--heap-growing-percent=0');
  }, LOOK_EVERY_MS).unref();
}
