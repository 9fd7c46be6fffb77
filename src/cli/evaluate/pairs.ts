import { readdir, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { AUDIO_ENDINGS } from '../../crate/index.js';
import { BarwiseError } from '../../units/index.js';

/** A file with an answer and the file it is held against. */
export interface EvaluationPair {
  readonly track: string;
  readonly estimate: string;
  readonly truth: string;
}

/** What belongs together, and what has nothing it belongs to, in sentences. */
export interface EvaluationPairs {
  readonly pairs: readonly EvaluationPair[];
  readonly alone: readonly { readonly file: string; readonly message: string }[];
}

const TRUTH_ENDINGS = ['.jams', '.json'];
/** Where a track has several answers in a folder, the first of these is taken. */
const ANSWER_ENDINGS = ['.json', '.jams', ...AUDIO_ENDINGS];

/**
 * Pairs two files, or the files of two folders (or of a folder and a file) by their names without endings.
 *
 * @param inside the files that one file of finished analyses is about, when `estimates` is such a file
 * @throws BarwiseError `file-missing`
 */
export async function findPairs(
  estimates: string,
  truths: string,
  inside: readonly string[] | null = null,
): Promise<EvaluationPairs> {
  const truthFiles = await filesOf(truths, TRUTH_ENDINGS);
  if (truthFiles.length === 0)
    throw new BarwiseError('file-missing', `${truths} holds no truth: put JAMS or truth files (JSON) there.`);
  if (inside === null && !(await isFolder(estimates)) && !(await isFolder(truths)))
    return { pairs: [{ track: nameOf(truths), estimate: estimates, truth: truths }], alone: [] };
  const answers = inside ?? (await answersIn(estimates, new Set(truthFiles)));
  const pairs: EvaluationPair[] = [];
  const alone: { file: string; message: string }[] = [];
  const named = new Set<string>();
  for (const truth of truthFiles) {
    const track = nameOf(truth);
    if (named.has(track)) {
      alone.push({ file: truth, message: `${truth}: another truth file is called ${track} too; keep one of them.` });
      continue;
    }
    named.add(track);
    const estimate = answers.find((f) => nameOf(f) === track);
    if (estimate !== undefined) pairs.push({ track, estimate, truth });
    else
      alone.push({ file: truth, message: `${truth}: ${estimates} holds no audio file or analysis called ${track}.` });
  }
  return { pairs, alone };
}

async function answersIn(folder: string, truths: ReadonlySet<string>): Promise<string[]> {
  const files = await filesOf(folder, ANSWER_ENDINGS);
  return files.filter((f) => !truths.has(f) && !f.endsWith('.truth.json')).sort((a, b) => rank(a) - rank(b));
}

/** A file's name without its endings, `.truth` included. @example nameOf('a/one.truth.json') // 'one' */
export function nameOf(file: string): string {
  return basename(file)
    .replace(/\.[^.]+$/, '')
    .replace(/\.truth$/, '');
}

export function isAudio(file: string): boolean {
  return !TRUTH_ENDINGS.includes(endingOf(file));
}

function rank(file: string): number {
  return ANSWER_ENDINGS.indexOf(endingOf(file));
}

function endingOf(file: string): string {
  return /\.[^.]+$/.exec(basename(file))?.[0].toLowerCase() ?? '';
}

async function filesOf(path: string, endings: readonly string[]): Promise<string[]> {
  if (!(await isFolder(path))) return [path];
  const entries = await readdir(path, { recursive: true, withFileTypes: true });
  return entries
    .filter((e) => e.isFile() && endings.includes(endingOf(e.name)))
    .map((e) => join(e.parentPath, e.name))
    .filter((f) => !/(^|[\\/])\./.test(f.slice(path.length)))
    .sort();
}

async function isFolder(path: string): Promise<boolean> {
  try {
    return (await stat(path)).isDirectory();
  } catch {
    throw new BarwiseError('file-missing', `${path} is not there: give a file or a folder that is.`, { file: path });
  }
}
