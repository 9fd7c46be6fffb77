import type { BarNumber, Seconds } from '../../units/index.js';
import type { MatchRemark } from './remarks.js';
import type { MatchWords } from './words.js';

/** Where B starts on A's count, as a plan has it. */
export interface StartFacts {
  readonly kind: 'blend' | 'cut';
  readonly start: {
    readonly a: { readonly bar: BarNumber; readonly time: Seconds; readonly phraseBar: number };
    readonly b: { readonly bar: BarNumber; readonly time: Seconds };
    readonly countInFrom: { readonly bar: BarNumber } | null;
  };
}

/** "Start B on the one of …" */
export function startSentence({ kind, start }: StartFacts, nameB: string, words: MatchWords): string {
  const { a, b, countInFrom } = start;
  if (kind === 'cut') return words.cut({ nameB, timeA: a.time, barB: b.bar, timeB: b.time });
  return words.start({
    nameB,
    barA: a.bar,
    timeA: a.time,
    barB: b.bar,
    timeB: b.time,
    countInFrom: countInFrom?.bar ?? null,
    phraseOne: a.phraseBar === 1,
  });
}

/** Where B starts and, where both play, for how long; and that this is not surely borne out, where that is so. */
export function planOpening(
  plan: StartFacts & {
    readonly overlap: { readonly bars: number; readonly before: number; readonly after: number };
    readonly cautions: readonly MatchRemark[];
  },
  nameB: string,
  words: MatchWords,
): string[] {
  const { bars, before, after } = plan.overlap;
  const start = startSentence(plan, nameB, words);
  const doubt = plan.cautions.filter(isOpening).map(words.remark);
  return plan.kind === 'cut' ? [start, ...doubt] : [start, words.overlap(bars, before, after), ...doubt];
}

/** Whether a caution is said with the opening, and need not be said again behind it. */
export function isOpening({ kind }: MatchRemark): boolean {
  return kind === 'start-unsure';
}
