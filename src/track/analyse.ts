import { basename } from 'node:path';
import { openAudio } from '../audio/index.js';
import { findForm, FORM_WEIGHTS_ID } from '../form/index.js';
import { findGrid, RHYTHM_WEIGHTS_ID } from '../rhythm/index.js';
import { FRONT_END_ID, type FrontEnd } from '../signal/index.js';
import { BarwiseError, throwIfAborted, type Progress } from '../units/index.js';
import type { TrackAnalysis } from './analysis.js';
import { assemble } from './assemble.js';
import { listen } from './listen.js';
import { digestOf, type AnalyseOptions } from './options.js';
import { VERSION } from './version.js';

/** How the work is shared out between the stages on a progress bar, as measured on six-minute MP3s. */
const SHARES = { listening: 0.75, grid: 0.15, form: 0.1 };

/** What an analysis made with these options carries as its identity. */
export function analysisIdentity(options: AnalyseOptions = {}): TrackAnalysis['analysis'] {
  return {
    version: VERSION,
    weightsId: `${RHYTHM_WEIGHTS_ID}+${FORM_WEIGHTS_ID}`,
    frontEndId: FRONT_END_ID,
    optionsDigest: 'none',
    correctionsDigest: digestOf(options.constraints ?? {}),
  };
}

/**
 * Finds the structure of a track.
 *
 * @param file path of an audio file
 * @throws BarwiseError with a code of `ERROR_CODES` and one sentence that names the file
 * @example
 * const track = await analyseTrack('demo/crate/slack-water.flac');
 * console.log(track.tempo.bpm, track.phrases.length);
 */
export async function analyseTrack(file: string, options: AnalyseOptions = {}): Promise<TrackAnalysis> {
  return (await analyseWithCurves(file, options)).analysis;
}

/** The same, with the curves it was found from: for charts, which need them again. */
export async function analyseWithCurves(
  file: string,
  options: AnalyseOptions = {},
): Promise<{ analysis: TrackAnalysis; frontEnd: FrontEnd }> {
  try {
    return await runStages(file, options);
  } catch (error) {
    if (error instanceof BarwiseError && error.file === undefined) {
      throw new BarwiseError(error.code, `${basename(file)}: ${error.message}`, { file, cause: error });
    }
    throw error;
  }
}

async function runStages(file: string, options: AnalyseOptions) {
  const { signal, constraints = {} } = options;
  const report = (base: number, share: number, stage: string) => (p: Progress) =>
    options.onProgress?.({ stage, done: base + share * p.done });

  const audio = await openAudio(file, { decoder: options.decoder, onWarning: options.onWarning, signal });
  const heard = await listen(audio.source, { signal, onProgress: report(0, SHARES.listening, 'listening') });
  heard.warnings.forEach((warning) => options.onWarning?.(warning));
  throwIfAborted(signal);

  const afterListening = report(SHARES.listening, SHARES.grid, 'finding beats and bars');
  const grid = findGrid(heard.frontEnd, constraints.grid, { signal, onProgress: afterListening });
  throwIfAborted(signal);

  const afterGrid = report(SHARES.listening + SHARES.grid, SHARES.form, 'finding phrases and sections');
  const form = findForm(heard.frontEnd, grid, constraints.form, { signal, onProgress: afterGrid });

  const analysis = assemble({
    info: audio.info,
    warnings: [...audio.warnings(), ...heard.warnings],
    identity: analysisIdentity(options),
    grid,
    form,
    key: heard.key,
    loudness: heard.loudness,
  });
  options.onProgress?.({ stage: 'done', done: 1 });
  return { analysis, frontEnd: heard.frontEnd };
}
