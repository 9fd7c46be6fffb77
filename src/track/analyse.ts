import { basename } from 'node:path';
import { openAudio, type AudioFileInfo } from '../audio/index.js';
import { findForm, FORM_WEIGHTS_ID } from '../form/index.js';
import { findGrid, RHYTHM_WEIGHTS_ID } from '../rhythm/index.js';
import { FRONT_END_ID, type FrontEnd } from '../signal/index.js';
import { BarwiseError, throwIfAborted, type Progress } from '../units/index.js';
import type { TrackAnalysis } from './analysis.js';
import { assemble } from './assemble.js';
import { constraintsOf, plainCorrection, readCorrections, toldOf } from './corrections/index.js';
import { listen, type Heard } from './listen.js';
import { digestOf, type AnalyseOptions } from './options.js';
import { ANALYSIS_VERSION } from './version.js';

/** How the work is shared out between the stages on a progress bar, as measured on six-minute MP3s. */
const SHARES = { listening: 0.75, grid: 0.15, form: 0.1 };

/** What an analysis made with these options carries as its identity; the corrections must be given. @experimental */
export function analysisIdentity(options: AnalyseOptions = {}): TrackAnalysis['analysis'] {
  return {
    version: ANALYSIS_VERSION,
    weightsId: `${RHYTHM_WEIGHTS_ID}+${FORM_WEIGHTS_ID}`,
    frontEndId: FRONT_END_ID,
    optionsDigest: 'none',
    correctionsDigest: digestOf(constraintsOf(options.corrections ?? [], options.constraints)),
  };
}

/**
 * Finds the structure of a track.
 *
 * @public
 * @param file path of an audio file
 * @throws BarwiseError with a code of `ERROR_CODES` and one sentence that names the file
 * @example
 * const track = await analyseTrack('demo/crate/slack-water.flac');
 * console.log(track.tempo.bpm, track.phrases.length);
 */
export async function analyseTrack(file: string, options: AnalyseOptions = {}): Promise<TrackAnalysis> {
  return (await analyseWithCurves(file, options)).analysis;
}

/** The same, with the curves it was found from: for charts, which need them again. @experimental */
export async function analyseWithCurves(
  file: string,
  options: AnalyseOptions = {},
): Promise<{ analysis: TrackAnalysis; frontEnd: FrontEnd; heard: HeardTrack }> {
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
  const heard = await hearTrack(file, { ...options, onProgress: part(options, 0, SHARES.listening) });
  const corrections = options.corrections ?? (await readCorrections(heard.info.audioDigest, options.correctionsFolder));
  const onProgress = part(options, SHARES.listening, SHARES.grid + SHARES.form);
  const analysis = structureOf(heard, { ...options, corrections: corrections.map(plainCorrection), onProgress });
  options.onProgress?.({ stage: 'done', done: 1 });
  return { analysis, frontEnd: heard.frontEnd, heard };
}

/** What can be told of a file without listening to it: its digest, length and tags. @public */
export async function inspectTrack(
  file: string,
  { decoder, signal }: Pick<AnalyseOptions, 'decoder' | 'signal'> = {},
): Promise<AudioFileInfo> {
  const opened = await openAudio(file, { decoder, signal });
  await opened.source.close();
  return opened.info;
}

/**
 * A track that has been listened to: what is expensive, and does not depend on how the track is counted.
 * @experimental
 */
export interface HeardTrack extends Heard {
  readonly info: AudioFileInfo;
}

/**
 * Listens to a file once. What it gives can be given to `structureOf` any number of times.
 * @experimental
 * @throws BarwiseError with a code of `ERROR_CODES`
 */
export async function hearTrack(file: string, options: AnalyseOptions = {}): Promise<HeardTrack> {
  const { signal, decoder, onWarning, onProgress } = options;
  const audio = await openAudio(file, { decoder, onWarning, signal });
  const report = (p: Progress) => onProgress?.({ stage: 'listening', done: p.done });
  const heard = await listen(audio.source, { signal, onProgress: report });
  heard.warnings.forEach((warning) => onWarning?.(warning));
  throwIfAborted(signal);
  return { ...heard, info: audio.info, warnings: [...audio.warnings(), ...heard.warnings] };
}

/**
 * The structure of a track that has been listened to, under corrections and constraints. It reads no corrections file:
 * without `corrections` nobody has said anything.
 * @experimental
 * @throws BarwiseError `silent`, `too-short`, `no-steady-beat`, `aborted`
 */
export function structureOf(heard: HeardTrack, options: AnalyseOptions = {}): TrackAnalysis {
  const { signal, corrections = [] } = options;
  const constraints = constraintsOf(corrections, options.constraints);
  const share = SHARES.grid / (SHARES.grid + SHARES.form);
  const during = (stage: string, base: number, width: number) => (p: Progress) =>
    options.onProgress?.({ stage, done: base + width * p.done });
  const grid = findGrid(heard.frontEnd, constraints.grid, {
    signal,
    onProgress: during('finding beats and bars', 0, share),
  });
  throwIfAborted(signal);
  const form = findForm(heard.frontEnd, grid, constraints.form, {
    signal,
    onProgress: during('finding phrases and sections', share, 1 - share),
  });
  return assemble({
    info: heard.info,
    warnings: heard.warnings,
    identity: analysisIdentity({ ...options, corrections }),
    corrections: toldOf(corrections, options.constraints),
    grid,
    form,
    key: heard.key,
    loudness: heard.loudness,
  });
}

function part({ onProgress }: AnalyseOptions, base: number, width: number) {
  return ({ stage, done }: Progress) => onProgress?.({ stage, done: base + width * done });
}
