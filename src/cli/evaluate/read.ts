import { readFile, stat } from 'node:fs/promises';
import { estimateOfAnalysis, type Estimate, type Truth } from '../../evaluation/index.js';
import { parseTrackAnalysis, type TrackAnalysis } from '../../track/index.js';
import { BarwiseError } from '../../units/index.js';
import { estimateFromJson, truthFromJson } from './from-json.js';
import { isAudio, type EvaluationPair } from './pairs.js';

/** Truth files larger than this are none. */
const LARGEST = 256 * 2 ** 20;

/** The answer and the truth of a pair. @param analyses of the audio files, by path. Throws BarwiseError. */
export async function readPair(
  { track, estimate, truth }: EvaluationPair,
  analyses: ReadonlyMap<string, TrackAnalysis>,
): Promise<{ estimate: Estimate; truth: Truth }> {
  const known = truthFromJson(await jsonOf(truth), track, truth);
  const analysis = analyses.get(estimate);
  if (analysis) return { estimate: estimateOfAnalysis(analysis), truth: known };
  if (isAudio(estimate)) throw new BarwiseError('file-unreadable', `${estimate} was not analysed.`, { file: estimate });
  return { estimate: estimateFromJson(await jsonOf(estimate), estimate), truth: known };
}

/** What `barwise analyse --json` printed of several tracks, by the files they are about; null for any other path. */
export async function finishedAnalyses(path: string): Promise<ReadonlyMap<string, TrackAnalysis> | null> {
  if (!path.toLowerCase().endsWith('.json') || !(await stat(path).catch(() => null))?.isFile()) return null;
  const json = await jsonOf(path);
  const tracks = typeof json === 'object' && json !== null && 'tracks' in json ? json.tracks : null;
  if (!Array.isArray(tracks)) return null;
  return new Map(tracks.map((t) => parseTrackAnalysis(t)).map((t) => [t.source.file, t]));
}

async function jsonOf(file: string): Promise<unknown> {
  const text = await readFile(file, 'utf8').catch((cause: unknown) => {
    throw new BarwiseError('file-unreadable', `${file} cannot be read: look at its permissions.`, { file, cause });
  });
  if (text.length > LARGEST)
    throw new BarwiseError('too-long', `${file} is too large for annotations: give another file.`, { file });
  try {
    return JSON.parse(text.replace(/^\uFEFF/, '')) as unknown;
  } catch (cause) {
    throw new BarwiseError('damaged', `${file} is not JSON: give JAMS, a truth file or a finished analysis.`, {
      file,
      cause,
    });
  }
}
