import { LESSON_PAPERS, PICTURE_FORMATS, printLesson, type PictureFormat } from '../../../reports/index.js';
import { BarwiseError } from '../../units/index.js';
import { analyse } from '../analyse.js';
import type { AnalysisArguments } from '../arguments.js';
import { exitCodeFor, type ExitCode } from '../exit-codes.js';
import { nameFile, say, type Io } from '../io.js';
import { checkOutputFile, PDF_KIND, PNG_KIND, SVG_KIND, type OutputKind } from '../output-file.js';
import { lookOf, paperOf, type PrintArguments } from '../print-options.js';

/** The options of `barwise lesson`, as they come from the command line. */
export interface LessonArguments extends AnalysisArguments, PrintArguments {
  readonly resolution?: string;
}

const KINDS: Readonly<Record<PictureFormat, OutputKind>> = { pdf: PDF_KIND, svg: SVG_KIND, png: PNG_KIND };

/** `barwise lesson FILE [FILE] --out lesson.pdf`: the diagram of a track, or of two side by side. */
export async function lessonCommand(paths: readonly string[], given: LessonArguments, io: Io): Promise<ExitCode> {
  const format = PICTURE_FORMATS.find((f) => given.out.toLowerCase().endsWith(`.${f}`));
  if (format === undefined)
    throw new BarwiseError(
      'bad-option',
      `The result cannot be called ${given.out}: give a name in .pdf, .svg or .png.`,
    );
  const paper = paperOf('--paper', given.paper, LESSON_PAPERS);
  const resolution = given.resolution === undefined ? undefined : Number(given.resolution);
  const overwrite = given.overwrite === true;
  const look = await lookOf(given);
  await checkOutputFile(given.out, KINDS[format], overwrite);
  const crate = await analyse(paths, given, io);
  if (crate.tracks.length > 0) {
    const options = {
      ...look,
      paper,
      overwrite,
      ...(resolution === undefined ? {} : { resolution }),
      signal: io.signal,
    };
    const { warnings, files = [given.out] } = await printLesson(crate.tracks, given.out, options);
    warnings.forEach(({ file, message }) => say(io, `${file}: ${message}`));
    files.forEach((file) => nameFile(io, file));
  }
  return exitCodeFor(crate);
}
