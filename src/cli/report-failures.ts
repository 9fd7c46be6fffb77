import { basename } from 'node:path';
import type { CrateAnalysis, CrateResult } from '../crate/index.js';
import { say, type Io } from './io.js';

/** One sentence for every file that failed and for every warning about a file that did not. */
export function reportFailures(io: Io, crate: CrateAnalysis): void {
  for (const { source } of crate.tracks) {
    for (const { message } of source.warnings) say(io, naming(source.file, message));
  }
  reportCrate(io, crate);
}

/** What failed, what was passed over, which files are the same; and, where it is more than one, how many failed. */
export function reportCrate(io: Io, { tracks, failures, notices, duplicates }: CrateResult<unknown>): void {
  notices.forEach((notice) => say(io, notice));
  for (const [first, ...others] of duplicates) say(io, `The same audio: ${[first, ...others].join(', ')}.`);
  for (const { file, message, stack } of failures) {
    say(io, naming(file, message));
    if (io.env['BARWISE_DEBUG'] && stack !== undefined) io.stderr.write(`${stack}\n`);
  }
  const total = tracks.length + failures.length;
  if (failures.length > 1)
    say(io, `${failures.length} of ${total} could not be analysed: why, and what to do, is said above of each.`);
}

/** A sentence that says which file it is about, and in which folder. */
function naming(file: string, sentence: string): string {
  const name = basename(file);
  if (sentence.includes(file)) return sentence;
  if (sentence.startsWith(name)) return file + sentence.slice(name.length);
  return sentence.includes(name) ? sentence : `${file}: ${sentence}`;
}
