import type { Confidence } from '../units/index.js';
import { isDoubtful, type Deck, type PlanSubject } from '../wording/index.js';
import { barAt } from './count.js';
import { beatOfB, type Frame } from './frame.js';
import type { MatchPlan } from './places.js';
import { phraseOf } from './score.js';

/** The weakest answer that a plan rests on, of either analysis; one that cannot be judged is weaker than any. */
export function planConfidence(frame: Frame): MatchPlan['confidence'] {
  const answers = (['a', 'b'] as const).flatMap((deck) => answersOf(frame, deck));
  return answers.reduce((weakest, answer) => (rank(answer.value) < rank(weakest.value) ? answer : weakest));
}

function answersOf(frame: Frame, deck: Deck): { value: Confidence; deck: Deck; subject: PlanSubject }[] {
  const { analysis, end } = frame[deck];
  const at = (beat: number) => barAt(frame[deck], Math.min(beat, end - 1));
  const start = at(deck === 'a' ? frame.from : beatOfB(frame, frame.from));
  const moment = deck === 'a' ? frame.leaving : frame.arriving;
  const phrases = [start, at(moment.beat)].flatMap((bar) => {
    const phrase = bar === null ? undefined : phraseOf(analysis, bar.phrase);
    return phrase === undefined ? [] : [{ value: phrase.confidence, deck, subject: 'phrase' as const }];
  });
  const section = moment.bar?.startsSection;
  return [
    { value: analysis.tempo.confidence, deck, subject: 'tempo' },
    { value: analysis.beatPhase.confidence, deck, subject: 'beat' },
    { value: analysis.downbeat.confidence, deck, subject: 'downbeat' },
    ...phrases,
    ...(section ? [{ value: section.confidence, deck, subject: 'section' as const }] : []),
  ];
}

const rank = (value: Confidence): number => value ?? -1;

/**
 * Says of every plan how sure it is: in one caution behind the others, and before them all where it is not fairly sure.
 * @param all of the plans and of those that come behind them, best first
 */
export function tellConfidence(plans: readonly MatchPlan[], all: readonly MatchPlan['confidence'][]): MatchPlan[] {
  const surer = all.findIndex(({ value }) => !isDoubtful(value));
  return plans.map((plan) => {
    const { confidence, cautions } = plan;
    return {
      ...plan,
      cautions: isDoubtful(confidence.value)
        ? [{ kind: 'start-unsure', ...confidence, surer: surer < 0 ? null : surer + 1 }, ...cautions]
        : [...cautions, { kind: 'confidence', ...confidence }],
    };
  });
}
