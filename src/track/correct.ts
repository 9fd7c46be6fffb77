import { basename } from 'node:path';
import { BarwiseError } from '../units/index.js';
import { hearTrack, structureOf, type HeardTrack } from './analyse.js';
import type { TrackAnalysis } from './analysis.js';
import { changesBetween, type AnalysisChange } from './changes.js';
import {
  appendCorrections,
  contradict,
  correctionsFile,
  correctionWords,
  isMet,
  plainCorrection,
  readCorrections,
  removeCorrection,
  saysTheSame,
  type Correction,
  type SaidCorrection,
} from './corrections/index.js';
import type { AnalyseOptions } from './options.js';

/** How a track is corrected. @public */
export interface CorrectOptions extends Omit<AnalyseOptions, 'constraints' | 'corrections'> {
  /** Only show what would change. */
  readonly dryRun?: boolean;
  /** What the corrections were taken from; by default they are a person's own word. */
  readonly from?: string;
}

/** What a correction did. @public */
export interface CorrectedTrack {
  readonly before: TrackAnalysis;
  readonly after: TrackAnalysis;
  readonly changes: AnalysisChange[];
  /** Everything that has been said about the track now. */
  readonly corrections: SaidCorrection[];
  /** What was taken back; empty where something was said. */
  readonly takenBack: SaidCorrection[];
  /** The file that holds it. */
  readonly file: string;
}

/**
 * Corrects a track: the stages are run again under everything that has been said, and it is written down.
 * @public
 * @throws BarwiseError `contradiction` when it cannot be so together with what was said before, or at all: nothing is
 * written; `damaged` for a corrections file that cannot be read; what `analyseTrack` and writing throw
 * @example await correctTrack('track.mp3', [{ kind: 'tempo', bpm: 87 }])
 */
export async function correctTrack(
  track: string,
  add: readonly Correction[],
  options: CorrectOptions = {},
): Promise<CorrectedTrack> {
  const { heard, said } = await opened(track, options);
  const before = structureOf(heard, { corrections: said.map(plainCorrection) });
  const fresh = add.filter(
    (c, i) => !said.some((s) => saysTheSame(plainCorrection(s), c)) && !add.slice(0, i).some((a) => saysTheSame(a, c)),
  );
  let all = said.map(plainCorrection);
  for (const c of fresh) {
    refuseContradiction(all, c, heard);
    all = [...all, c];
  }
  const after = structureOf(heard, { corrections: all });
  const now = new Date().toISOString().replace(/\.\d+Z$/, 'Z');
  const lines = fresh.map((c): SaidCorrection => ({ ...c, said: now, from: options.from ?? null }));
  const of = { audioDigest: heard.info.audioDigest, file: track, folder: options.correctionsFolder };
  const corrections = options.dryRun || lines.length === 0 ? [...said, ...lines] : await appendCorrections(of, lines);
  return corrected(before, after, corrections, of);
}

/**
 * Takes a correction back. What was taken over from one file at one time goes together.
 *
 * @public
 * @param number from 1, as they are listed, takes back that one alone; by default the last one, with all that came with it
 * @throws BarwiseError `bad-option` when there is none of that number
 */
export async function undoCorrection(
  track: string,
  number?: number,
  options: CorrectOptions = {},
): Promise<CorrectedTrack> {
  const { heard, said } = await opened(track, options);
  const index = (number ?? said.length) - 1;
  if (said[index] === undefined) {
    const have = said.length === 0 ? 'nothing has been said about it' : `give a number from 1 to ${said.length}`;
    throw new BarwiseError('bad-option', `${basename(track)} has no such correction to take back: ${have}.`, {
      file: track,
    });
  }
  const gone = number === undefined ? cameTogether(said) : [index];
  const left = said.filter((_, i) => !gone.includes(i));
  const before = structureOf(heard, { corrections: said.map(plainCorrection) });
  const after = structureOf(heard, { corrections: left.map(plainCorrection) });
  const of = { audioDigest: heard.info.audioDigest, file: track, folder: options.correctionsFolder };
  const corrections = options.dryRun ? left : await removeCorrection(of, gone);
  return corrected(
    before,
    after,
    corrections,
    of,
    gone.map((i) => said[i]),
  );
}

/** The last correction, and those that were taken over with it from the same file. */
function cameTogether(said: readonly SaidCorrection[]): number[] {
  const last = said[said.length - 1];
  if (last.from === null) return [said.length - 1];
  return said.flatMap((s, i) => (s.from === last.from && s.said === last.said ? [i] : []));
}

/** What came of correcting a track. */
export function corrected(
  before: TrackAnalysis,
  after: TrackAnalysis,
  corrections: SaidCorrection[],
  of: { readonly audioDigest: string; readonly folder: string | undefined },
  takenBack: SaidCorrection[] = [],
): CorrectedTrack {
  const file = correctionsFile(of.audioDigest, of.folder);
  return { before, after, changes: changesBetween(before, after), corrections, takenBack, file };
}

/** Listens to a track, and reads what was said about it. */
export async function opened(
  track: string,
  options: CorrectOptions,
): Promise<{ heard: HeardTrack; said: SaidCorrection[] }> {
  const heard = await hearTrack(track, options);
  return { heard, said: await readCorrections(heard.info.audioDigest, options.correctionsFolder) };
}

/** Throws when a correction cannot be so: by what was said before, or by the result. */
function refuseContradiction(said: readonly Correction[], c: Correction, heard: HeardTrack): void {
  const name = basename(heard.info.file);
  const by = said.find((s) => contradict(s, c));
  if (by) throw contradiction(name, c, by, said.indexOf(by));
  const under = (corrections: readonly Correction[]) => structureOf(heard, { corrections });
  const together = under([...said, c]);
  const broken = said.find((s) => !isMet(s, together));
  if (broken) throw contradiction(name, c, broken, said.indexOf(broken));
  if (isMet(c, together)) return;
  const other = isMet(c, under([c])) ? said.find((s) => !isMet(c, under([s, c]))) : undefined;
  if (other) throw contradiction(name, c, other, said.indexOf(other));
  throw new BarwiseError(
    'contradiction',
    `${name} cannot be counted so that ${correctionWords(c)}: ${nearest(c, together)}.`,
    {
      file: heard.info.file,
    },
  );
}

function contradiction(name: string, c: Correction, by: Correction, index: number): BarwiseError {
  return new BarwiseError(
    'contradiction',
    `${name}: that ${correctionWords(c)} contradicts what was said before, that ${correctionWords(by)}: take that back first (--undo ${index + 1}) or leave it so.`,
  );
}

/** What the track has instead. */
function nearest(c: Correction, { tempo, beats, bars }: TrackAnalysis): string {
  const close = (times: readonly number[], time: number) =>
    times.reduce((best, t) => (Math.abs(t - time) < Math.abs(best - time) ? t : best), Infinity);
  if (c.kind === 'tempo')
    return `the nearest tempo that fits what is heard is ${Math.round(tempo.bpm * 100) / 100} BPM`;
  if (c.kind === 'metre') return 'its beats do not make such bars';
  const times = c.kind === 'beat' ? beats : bars.map((b) => b.start);
  return `the nearest ${c.kind === 'beat' ? 'beat' : 'one of a bar'} is at ${close(times, c.time).toFixed(2)} s`;
}
