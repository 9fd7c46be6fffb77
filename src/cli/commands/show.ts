import { basename, resolve } from 'node:path';
import { crateOptions, type AnalysisArguments } from '../arguments.js';
import { analyse } from '../analyse.js';
import { exitCodeFor, type ExitCode } from '../exit-codes.js';
import { nameFile, say, type Io } from '../io.js';
import { checkOutputFile } from '../output-file.js';
import { PAGE_KIND, writePage } from '../page-file.js';

/** `barwise show FILE|DIR… --out page.html`: the playable page of one's own tracks. */
export async function showCommand(
  paths: readonly string[],
  options: AnalysisArguments & { readonly out: string; readonly title?: string },
  io: Io,
): Promise<ExitCode> {
  await checkOutputFile(options.out, PAGE_KIND);
  const crate = await analyse(paths, options, io);
  if (crate.tracks.length > 0) {
    const title = options.title ?? (paths.length === 1 ? basename(resolve(paths[0])) : `${crate.tracks.length} tracks`);
    await writePage(options.out, crate.tracks, {
      title,
      analysis: { ...crateOptions(options, io.env), signal: io.signal },
    });
    nameFile(io, options.out);
    if (io.stderr.isTTY === true) say(io, `Open ${options.out} in a browser; it plays the files where they are now.`);
  }
  return exitCodeFor(crate);
}
