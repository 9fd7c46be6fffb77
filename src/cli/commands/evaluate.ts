import { scoreTrack, summarise } from '../../evaluation/index.js';
import type { TrackAnalysis } from '../../track/index.js';
import { BarwiseError } from '../../units/index.js';
import { analyse } from '../analyse.js';
import type { AnalysisArguments } from '../arguments.js';
import { findPairs, isAudio, type EvaluationPair } from '../evaluate/pairs.js';
import { evaluationFields, evaluationText, type EvaluatedTrack, type Evaluation } from '../evaluate/print.js';
import { finishedAnalyses, readPair } from '../evaluate/read.js';
import { EXIT, type ExitCode } from '../exit-codes.js';
import { say, type Io } from '../io.js';

/** `barwise evaluate ESTIMATES TRUTHS`: how right audio files' analyses, or finished ones, are against what is known. */
export async function evaluateCommand(
  estimates: string,
  truths: string,
  options: AnalysisArguments & { readonly json?: boolean },
  io: Io,
): Promise<ExitCode> {
  const finished = await finishedAnalyses(estimates);
  const { pairs, alone } = await findPairs(estimates, truths, finished && [...finished.keys()]);
  alone.forEach(({ message }) => say(io, message));
  const failures: Evaluation['failures'][number][] = alone.map((a) => ({ ...a, code: 'file-missing' }));
  const analyses = finished ?? (await analyseAudio(pairs, options, io, failures));
  const tracks: EvaluatedTrack[] = [];
  for (const pair of pairs) {
    if (failures.some((f) => f.file === pair.estimate)) continue;
    try {
      const { estimate, truth } = await readPair(pair, analyses);
      tracks.push({
        ...pair,
        scores: scoreTrack(truth, estimate),
        wholeTrack: scoreTrack(truth, estimate, { from: 0 }),
      });
    } catch (error) {
      if (!(error instanceof BarwiseError)) throw error;
      const message = naming(error, pair);
      say(io, message);
      failures.push({ file: error.file ?? pair.estimate, code: error.code, message });
    }
  }
  const mean = {
    scores: summarise(tracks.map((t) => t.scores)),
    wholeTrack: summarise(tracks.map((t) => t.wholeTrack)),
  };
  print({ tracks, mean, failures }, options, io);
  if (tracks.length === 0) return EXIT.nothing;
  return failures.length > 0 ? EXIT.some : EXIT.done;
}

async function analyseAudio(
  pairs: readonly EvaluationPair[],
  options: AnalysisArguments,
  io: Io,
  failures: Evaluation['failures'][number][],
): Promise<ReadonlyMap<string, TrackAnalysis>> {
  const files = pairs.map((p) => p.estimate).filter(isAudio);
  if (files.length === 0) return new Map();
  const crate = await analyse(files, options, io);
  failures.push(...crate.failures.map(({ file, code, message }) => ({ file, code, message })));
  return new Map(crate.tracks.map((t) => [t.source.file, t]));
}

/** The sentence of an error, led by the file it is about where it does not say so itself. */
function naming(error: BarwiseError, { estimate }: EvaluationPair): string {
  return error.file === undefined ? `${estimate}: ${error.message}` : error.message;
}

function print(evaluation: Evaluation, { json }: { readonly json?: boolean }, io: Io): void {
  if (json) io.stdout.write(`${JSON.stringify(evaluation, null, io.stdout.isTTY === true ? 1 : 0)}\n`);
  else if (evaluation.tracks.length === 0) return;
  else io.stdout.write(io.stdout.isTTY === true ? evaluationText(evaluation, io) : evaluationFields(evaluation));
}
