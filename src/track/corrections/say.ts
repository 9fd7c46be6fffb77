import { changeWords, wordsOf, type Language } from '../../wording/index.js';
import type { Correction } from './correction.js';

/**
 * What a correction says, in words.
 * @public
 * @example correctionWords({ kind: 'tempo', bpm: 87 }) // 'the tempo is 87 BPM'
 */
export function correctionWords(correction: Correction, language: Language = 'en'): string {
  const words = wordsOf(language);
  const say = words.story.corrections;
  switch (correction.kind) {
    case 'tempo':
      return say.tempo(correction.bpm);
    case 'metre':
      return say.metre(correction.beatsPerBar);
    case 'first-one':
      return say.firstOne(correction.time);
    case 'beat':
      return say.beat(correction.time);
    case 'bar':
      return say.bar(correction.time);
    case 'phrase':
      return say.phrase(correction.time, correction.starts);
    case 'section': {
      const name = correction.function === null ? null : words.functions[correction.function];
      return say.section(correction.time, name, correction.starts);
    }
    case 'event':
      return say.event(correction.time, changeWords([correction], language)[0], correction.happens);
  }
}
