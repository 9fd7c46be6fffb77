import { clock } from '../units/index.js';
import type { Drill } from './drills/index.js';
import { HEARING_CAUTION } from './files/marker.js';

/**
 * The answer sheet of a drill as plain text to print: questions first, answers on a page of their own.
 * @experimental
 */
export function answerSheet({ sound, instruction, items }: Drill): string {
  const questions = items.map(
    ({ number, time, question }) =>
      `${pad(number)}  ${clock(time, 0).padStart(5)}  ${question}\n     ____________________\n`,
  );
  const answers = items.map(({ number, answer }) => `${pad(number)}  ${answer}\n`);
  return [
    `${sound.title}\n\n${instruction}\n\n`,
    ...questions,
    `\n${HEARING_CAUTION}\n`,
    '\f', // the answers go on the next page
    `${sound.title}: answers\n\n`,
    ...answers,
  ].join('');
}

const pad = (number: number): string => `${number}.`.padStart(3);
