import type { Onset, Vowel } from '../instruments/voice.js';
import { VOWEL_NAMES } from '../instruments/voice.js';
import type { Random } from '../random.js';
import { scaleNote } from './harmony.js';
import type { BarView } from './view.js';

/** A syllable of a line: offset and length in beats, steps above the root of the chord. */
interface Sung {
  readonly offset: number;
  readonly length: number;
  readonly step: number;
  readonly vowel: Vowel;
  readonly towards: Vowel;
  readonly onset: Onset;
}

/** The words of one bar: quick syllables on eighths and sixteenths that end in a long one. */
function wordsOf(beats: number, full: boolean, random: Random): Sung[] {
  const list: Sung[] = [];
  let offset = random.pick(full ? [0, 0, 0.5, 0.25] : [0.5, 1, 1.5]);
  const last = beats - random.pick([0.5, 1, 1.5]);
  let step = random.pick([0, 2, 4]);
  while (offset < last) {
    const left = last - offset;
    const length = left <= 1 ? left + 0.25 : random.pick([0.25, 0.5, 0.5, 0.75, 1]);
    list.push({
      offset,
      length: length * random.pick([0.8, 0.92]),
      step,
      vowel: random.pick(VOWEL_NAMES),
      towards: random.pick(VOWEL_NAMES),
      onset: random.pick(['none', 'hiss', 'stop', 'hum', 'stop']),
    });
    step = Math.max(-3, Math.min(7, step + random.pick([-2, -1, -1, 0, 1, 1, 2])));
    offset += length;
  }
  return list;
}

/** The voice of a bar: a line of four bars with a question, a rest or echo, and an answer; two verses take turns. */
export function playVoice(view: BarView): void {
  const { plan, bar, style, arrangement, kit, chord } = view;
  if (!plan.has.voice) return;
  const place = (bar.phraseBar - 1) % 4;
  const verse = (view.verse + Math.floor((bar.phraseBar - 1) / 8)) % 2;
  const random = view.constant.fork(`voice${verse}${place}`);
  for (const sung of wordsOf(bar.beats, place % 2 === 0, random)) {
    if (sung.offset >= bar.beats) continue;
    const note = scaleNote(arrangement.key, chord.degree - 1 + sung.step, style.voice.centre);
    const end = Math.min(sung.offset + sung.length, bar.beats + 0.5);
    const shot = kit.syllable({
      note,
      duration: view.seconds(sung.offset, end),
      vowel: sung.vowel,
      towards: sung.towards,
      onset: sung.onset,
    });
    view.hit('voice', shot, sung.offset, { level: 1.05 * view.random.between(0.9, 1.05) });
  }
}
