import type { BarNumber, Bpm, Seconds } from '../units/index.js';
import { BarwiseError } from '../units/index.js';
import type { Arrangement } from './arrangement.js';
import { beatTimes } from './clock.js';
import { planPhrase } from './phrase.js';
import type { PhrasePlan } from './phrase.js';

/** A bar of the timeline with its place in the form. */
export interface TimelineBar {
  readonly number: BarNumber;
  readonly start: Seconds;
  readonly beats: number;
  /** Index of its first beat. */
  readonly firstBeat: number;
  /** Index of its phrase. */
  readonly phrase: number;
  /** Place in the phrase, from 1. */
  readonly phraseBar: number;
}

export interface TimelinePhrase {
  readonly plan: PhrasePlan;
  readonly startBar: BarNumber;
  readonly part: number;
}

/** Where everything of an arrangement falls. */
export interface Timeline {
  /** Times of all beats and, last, of the end of the last beat. */
  readonly times: Float64Array;
  readonly tempos: readonly Bpm[];
  readonly bars: readonly TimelineBar[];
  readonly phrases: readonly TimelinePhrase[];
}

const MOST_BARS = 4000;

/** Lays an arrangement out in time. Throws `bad-option` when it has no bars, too many, or an impossible tempo. */
export function layOut(arrangement: Arrangement): Timeline {
  const { beatsPerBar } = arrangement;
  if (!(arrangement.bpm >= 20 && arrangement.bpm <= 400)) {
    throw new BarwiseError('bad-option', `An arrangement needs a tempo from 20 to 400 BPM, not ${arrangement.bpm}.`);
  }
  const phrases: TimelinePhrase[] = [];
  const tempos: Bpm[] = [];
  const bars: Omit<TimelineBar, 'start'>[] = [];
  let bpm = arrangement.bpm;
  arrangement.parts.forEach((part, partIndex) => {
    bpm = part.bpm ?? bpm;
    part.phrases.forEach((phrase, i) => {
      const plan = planPhrase(phrase, part.function, i === 0);
      phrases.push({ plan, startBar: bars.length + 1, part: partIndex });
      for (let phraseBar = 1; phraseBar <= plan.bars; phraseBar++) {
        const beats = plan.oddBars.find((odd) => odd.bar === phraseBar)?.beats ?? beatsPerBar;
        bars.push({
          number: bars.length + 1,
          beats,
          firstBeat: tempos.length,
          phrase: phrases.length - 1,
          phraseBar,
        });
        for (let beat = 0; beat < beats; beat++) tempos.push(bpm);
      }
    });
  });
  if (bars.length === 0 || bars.length > MOST_BARS) {
    throw new BarwiseError('bad-option', `An arrangement needs from 1 to ${MOST_BARS} bars, not ${bars.length}.`);
  }
  const times = beatTimes(tempos, arrangement.leadIn, arrangement.drift, arrangement.seed);
  return { times, tempos, phrases, bars: bars.map((bar) => ({ ...bar, start: times[bar.firstBeat] })) };
}
