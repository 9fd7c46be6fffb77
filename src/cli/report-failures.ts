import { basename } from 'node:path';
import type { CrateAnalysis } from '../crate/index.js';
import { say, type Io } from './io.js';

/** One sentence for every file that failed and for every warning about a file that did not. */
export function reportFailures(io: Io, { tracks, failures }: CrateAnalysis): void {
  for (const { source } of tracks) {
    for (const { message } of source.warnings) say(io, naming(source.file, message));
  }
  for (const { file, message, stack } of failures) {
    say(io, naming(file, message));
    if (io.env['BARWISE_DEBUG'] && stack !== undefined) io.stderr.write(`${stack}\n`);
  }
}

/** A sentence that says which file it is about. */
function naming(file: string, sentence: string): string {
  return sentence.includes(basename(file)) ? sentence : `${file}: ${sentence}`;
}
