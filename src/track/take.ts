import { BarwiseError } from '../units/index.js';
import { structureOf, type HeardTrack } from './analyse.js';
import type { TrackAnalysis } from './analysis.js';
import { corrected, opened, type CorrectedTrack, type CorrectOptions } from './correct.js';
import {
  appendCorrections,
  contradict,
  isMet,
  plainCorrection,
  saysTheSame,
  type Correction,
  type SaidCorrection,
} from './corrections/index.js';

/** How corrections of somebody else are taken over. @experimental */
export interface TakeOptions extends CorrectOptions {
  /** What they were taken from: the name of a file. */
  readonly from: string;
}

/** A correction that was not taken over. @experimental */
export interface RefusedCorrection {
  readonly correction: Correction;
  /** What was said before that it contradicts; null where the music does not allow it. */
  readonly by: Correction | null;
}

/** What taking corrections over did. @experimental */
export interface TakenCorrections extends CorrectedTrack {
  readonly taken: readonly Correction[];
  readonly refused: readonly RefusedCorrection[];
  /** What had been said before in the same words. */
  readonly known: readonly Correction[];
}

/** In this order: what comes later is found under what came before. */
const ORDER: readonly (readonly Correction['kind'][])[] = [
  ['tempo', 'metre'],
  ['first-one', 'beat'],
  ['bar'],
  ['section', 'phrase'],
  ['event'],
];

/**
 * Takes over what somebody else says about a track, as far as it can be so: unlike `correctTrack`, which refuses all
 * where one contradicts, it leaves out what contradicts a person's word or the music, and tells which. A person's own word
 * always stands.
 *
 * @experimental
 * @param track path of an audio file
 * @param offered in any order; what comes first in `tempo`, `first-one`, bars, sections and phrases is taken first
 * @param options `from` names what they come from; `dryRun` writes nothing
 * @returns what is counted before and after, what was taken, refused, and known before
 * @throws BarwiseError what `analyseTrack` and writing throw; `damaged` for a corrections file that cannot be read
 * @example
 * const { corrections } = correctionsOfCount(await readForeignCount('track.jams'));
 * await takeCorrections('track.mp3', corrections, { from: 'track.jams' });
 */
export async function takeCorrections(
  track: string,
  offered: readonly Correction[],
  options: TakeOptions,
): Promise<TakenCorrections> {
  const { heard, said } = await opened(track, options);
  const own = said.map(plainCorrection);
  const known = offered.filter((c) => own.some((s) => saysTheSame(s, c)));
  const fresh = offered.filter((c, i) => !known.includes(c) && !offered.slice(0, i).some((o) => saysTheSame(o, c)));
  const before = structureOf(heard, { corrections: own });
  let taken: Correction[] = [];
  const refused: RefusedCorrection[] = [];
  for (const kinds of ORDER) {
    const group: Correction[] = [];
    for (const c of fresh.filter(({ kind }) => kinds.includes(kind))) {
      const by = [...own, ...taken, ...group].find((s) => contradict(s, c));
      if (by === undefined) group.push(c);
      else refused.push({ correction: c, by });
    }
    const possible = together(heard, [...own, ...taken], group);
    for (const c of group) if (!possible.includes(c)) refused.push({ correction: c, by: null });
    taken = [...taken, ...possible];
  }
  const after = taken.length === 0 ? before : structureOf(heard, { corrections: [...own, ...taken] });
  const now = new Date().toISOString().replace(/\.\d+Z$/, 'Z');
  const lines = taken.map((c): SaidCorrection => ({ ...c, said: now, from: options.from }));
  const of = { audioDigest: heard.info.audioDigest, file: track, folder: options.correctionsFolder };
  const corrections = options.dryRun || lines.length === 0 ? [...said, ...lines] : await appendCorrections(of, lines);
  return { ...corrected(before, after, corrections, of), taken, refused, known };
}

/** Those of a group that can be so with what stands: all at once where they can, else one after the other. */
function together(heard: HeardTrack, standing: readonly Correction[], group: readonly Correction[]): Correction[] {
  let left = [...group];
  while (left.length > 0) {
    const result = under(heard, [...standing, ...left]);
    if (result === null || !standing.every((s) => isMet(s, result))) break;
    const met = left.filter((c) => isMet(c, result));
    if (met.length === left.length) return left;
    left = met;
  }
  if (left.length === 0) return [];
  const kept: Correction[] = [];
  for (const c of group) {
    const result = under(heard, [...standing, ...kept, c]);
    if (result !== null && [...standing, ...kept, c].every((s) => isMet(s, result))) kept.push(c);
  }
  return kept;
}

/** The track under corrections; null where it cannot be counted so at all. */
function under(heard: HeardTrack, corrections: readonly Correction[]): TrackAnalysis | null {
  try {
    return structureOf(heard, { corrections });
  } catch (error) {
    if (error instanceof BarwiseError && error.code !== 'aborted') return null;
    throw error;
  }
}
