import { basename } from 'node:path';
import {
  agreementWith,
  correctionsOfCount,
  readForeignCount,
  shifted,
  TAKEABLE,
  type CountAgreement,
  type NotTaken,
  type Takeable,
} from '../../exchange/index.js';
import { takeCorrections, type CorrectOptions, type TakenCorrections } from '../../track/index.js';
import { BarwiseError } from '../../units/index.js';
import { agreementSentence, notTakenSentences } from '../foreign-words.js';

export interface FromArguments {
  readonly from: string;
  readonly take?: string;
  readonly offset?: string;
}

/** What taking over a foreign file did, and how far the count agrees with it now. */
export interface TakenFrom extends TakenCorrections {
  readonly notTaken: readonly NotTaken[];
  readonly agreement: CountAgreement;
  /** All this for a person. */
  readonly sentences: readonly string[];
}

/** Longest shift between a file and the track's own clock (s). */
const LONGEST_OFFSET = 3600;

/** Takes over what a JAMS or MIDI file says about a track. Throws BarwiseError. */
export async function correctFrom(track: string, given: FromArguments, options: CorrectOptions): Promise<TakenFrom> {
  const wanted = takeOption(given.take);
  const offset = offsetOption(given.offset);
  const count = shifted(await readForeignCount(given.from), offset);
  const { corrections, notTaken } = correctionsOfCount(count, wanted);
  const file = basename(given.from);
  if (corrections.length === 0) {
    const why = notTakenSentences(notTaken, { refused: [], known: [] }, file);
    throw new BarwiseError(
      'damaged',
      `${given.from} says nothing that could be taken over (${why.join(' ').replace(/\.$/, '')}): give a file with beats, a tempo or sections.`,
      { file: given.from },
    );
  }
  const result = await takeCorrections(track, corrections, { ...options, from: file });
  const agreement = agreementWith(count, result.after);
  const sentences = [...notTakenSentences(notTaken, result, file), agreementSentence(agreement, file)].filter(Boolean);
  return { ...result, notTaken, agreement, sentences };
}

function takeOption(text: string | undefined): readonly Takeable[] {
  if (text === undefined) return TAKEABLE;
  return text.split(',').map((word) => {
    const found = TAKEABLE.find((t) => t === word.trim().toLowerCase());
    if (found !== undefined) return found;
    throw new BarwiseError('bad-option', `--take does not take "${word.trim()}": give some of ${TAKEABLE.join(',')}.`);
  });
}

function offsetOption(text: string | undefined): number {
  const value = text === undefined ? 0 : /^\s*[-+−]?\d+(\.\d+)?\s*$/.test(text) ? Number(text.replace('−', '-')) : NaN;
  if (Math.abs(value) <= LONGEST_OFFSET) return value;
  throw new BarwiseError('bad-option', `--offset does not take "${text}": give seconds, like 0.35 or -1.2.`);
}
