import type { Seconds } from '../../units/index.js';
import type { DrillData, DrillQuestion } from './data.js';

/** What somebody answered: a choice by its index, a tap by its instant in the sound, or nothing. */
export type GivenAnswer = { readonly choice: number } | { readonly tap: Seconds } | null;

/** Whether an answer is right, and a sentence about it. */
export interface Verdict {
  readonly isRight: boolean;
  /** What was answered, in a few words. */
  readonly given: string;
  /** How it stands to the truth: "19 ms early". */
  readonly told: string;
}

/**
 * A tap counts as right within so much of a beat either way. Answering what is heard takes a sixth of a second at the least
 * (from memory: simple reaction to sound, 140 to 160 ms), which at 124 BPM is a third of a beat: nobody gets it by waiting.
 */
const TAP_WINDOW = 0.25;
/** Even where a beat is long, waiting for the sound is no answer. */
const LONGEST_WINDOW: Seconds = 0.12;

/** Judges an answer. */
export function judge(
  data: Pick<DrillData, 'choices' | 'beat' | 'beatsPerBar'>,
  question: DrillQuestion,
  given: GivenAnswer,
): Verdict {
  const { reply } = question;
  if (given === null) return { isRight: false, given: 'no answer', told: '' };
  if (reply.kind === 'choice' && 'choice' in given) {
    return { isRight: given.choice === reply.right, given: data.choices[given.choice] ?? '', told: '' };
  }
  if (reply.kind === 'tap' && 'tap' in given) return judgeTap(data, given.tap - reply.at);
  return { isRight: false, given: 'no answer', told: '' };
}

function judgeTap({ beat, beatsPerBar }: Pick<DrillData, 'beat' | 'beatsPerBar'>, off: Seconds): Verdict {
  const isRight = Math.abs(off) <= Math.min(TAP_WINDOW * beat, LONGEST_WINDOW);
  const side = off < 0 ? 'early' : 'late';
  const beats = Math.round(Math.abs(off) / beat);
  const exact = Math.abs(Math.abs(off) - beats * beat) <= TAP_WINDOW * beat;
  const bars = beats / beatsPerBar;
  const whole = Number.isInteger(bars) ? plural(bars, 'bar') : plural(beats, 'beat');
  const told = beats > 0 && exact ? `${whole} ${side}` : `${milliseconds(off)} ${side}`;
  const spoken = Math.abs(off) < 0.0005 ? 'on it' : told;
  return { isRight, given: spoken, told: spoken };
}

/** "6 of 8 right". */
export function scoreWords(verdicts: readonly Verdict[], of: number): string {
  return `${verdicts.filter(({ isRight }) => isRight).length} of ${of} right`;
}

function milliseconds(seconds: Seconds): string {
  const size = Math.abs(seconds);
  return size >= 1 ? `${size.toFixed(1)} s` : `${Math.round(size * 1000)} ms`;
}

const plural = (n: number, thing: string): string => `${n} ${thing}${n === 1 ? '' : 's'}`;
