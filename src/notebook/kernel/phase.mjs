/** What the process does: nothing, compile a cell, run it until its first await or its end, or what it does after that. */
export const PHASE = { idle: 0, compiling: 1, running: 2, waiting: 3 };
