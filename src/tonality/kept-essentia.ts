import { startEssentia, type EssentiaThread } from './essentia.js';

/** Starting the thread takes longer than to analyse a short track; one that is not asked for so long is let go of. */
const KEPT_MS = 15_000;

/** The one thread that is kept for the next track. */
let kept: EssentiaThread | null = null;
let idle: NodeJS.Timeout | undefined;
let asking = 0;

/**
 * Asks essentia.js something, in a thread that is kept for a while for whoever asks next. It does not keep the process
 * from ending. What fails ends the thread, and the next question starts another.
 */
export async function askEssentia<T>(question: (thread: EssentiaThread) => Promise<T>): Promise<T> {
  const thread = (kept ??= startEssentia());
  clearTimeout(idle);
  asking++;
  try {
    return await question(thread);
  } catch (error) {
    if (kept === thread) kept = null;
    await thread.close();
    throw error;
  } finally {
    asking--;
    if (asking === 0) idle = setTimeout(letGo, KEPT_MS).unref();
  }
}

function letGo(): void {
  const thread = kept;
  kept = null;
  void thread?.close();
}
