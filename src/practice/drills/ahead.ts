import { addAt, clickFor } from '../sound/clicks.js';
import { RATE, silence } from '../sound/stereo.js';
import { drawQuestions } from './draw.js';
import { finish, PAUSE, type Drill, type DrillItem, type DrillOptions } from './drill.js';

/** Differences from plain to hard, in milliseconds: the last is near the least that is heard (Friberg & Sundberg, JASA 1995). */
const APART = [60, 45, 32, 24, 18, 14, 11, 8] as const;
/** Beats of a question, in fours. */
const BEATS = 12;
const CLICKS = ['high', 'low'] as const;

/**
 * Which record is ahead: two clicks, one high and one low, so many milliseconds apart, from plain to hard.
 * @experimental
 */
export async function drillAhead(options: DrillOptions & { readonly bpm?: number } = {}): Promise<Drill> {
  const { seed = 1, bpm = 124 } = options;
  const beat = 60 / bpm;
  const leads = drawQuestions(CLICKS, APART.length, seed);
  const each = BEATS * beat;
  const sound = silence(Math.ceil(APART.length * (each + PAUSE) * RATE));
  const [low, high] = [clickFor({ beat: 2, groupBar: 1 }), clickFor({ beat: 1, groupBar: 4 })];
  const items = APART.map((milliseconds, i): DrillItem => {
    const start = i * (each + PAUSE);
    const late = milliseconds / 1000;
    for (let k = 0; k < BEATS; k++) {
      addAt(sound, high, start + k * beat + (leads[i] === 'high' ? 0 : late), 0.5);
      addAt(sound, low, start + k * beat + (leads[i] === 'high' ? late : 0), 1);
    }
    return {
      number: i + 1,
      time: start,
      from: start,
      to: start + each,
      question: 'Which click is ahead, the high one or the low one?',
      answer: `the ${leads[i]} one, by ${milliseconds} ms`,
      reply: { kind: 'choice', right: CLICKS.indexOf(leads[i]) },
    };
  });
  const instruction =
    'Two clicks, a high one and a low one, play the same beat. Say which one is ahead and would have to be held back.';
  const choices = ['the high one', 'the low one'];
  const drill = { name: 'ahead', instruction, choices, beat, beatsPerBar: 4, items } as const;
  return finish(drill, 'Drill: which is ahead?', sound, options);
}
