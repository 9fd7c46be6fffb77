import { startKeyLibrary, type KeyLibrary } from './key-library.js';

/** Starting the library takes longer than to analyse a short track; one that is not asked for so long is let go of, with its memory. */
const KEPT_MS = 15_000;

/** The one that is kept for the next track. */
let kept: KeyLibrary | null = null;
let idle: NodeJS.Timeout | undefined;

/**
 * Asks essentia.js something; it is kept for a while for whoever asks next, which does not keep the process from ending. One that fails is let
 * go of, and the next question starts another.
 */
export function askEssentia<T>(question: (library: KeyLibrary) => T): T {
  clearTimeout(idle);
  try {
    const answer = question((kept ??= startKeyLibrary()));
    idle = setTimeout(letGo, KEPT_MS).unref();
    return answer;
  } catch (error) {
    letGo();
    // Exceptions of the compiled code arrive as bare numbers.
    throw error instanceof Error ? error : new Error(`essentia.js gave up (${String(error)})`);
  }
}

function letGo(): void {
  kept = null;
}
