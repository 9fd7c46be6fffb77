import type { Fraction, SectionFunction } from '../units/index.js';
import { presence, type CountedBar, type TrackCount } from './count.js';

/** A moment of a record at which the other may take over or come in. */
export interface Moment {
  /** Index of its beat. */
  readonly beat: number;
  /** `null` at the end of the record. */
  readonly bar: CountedBar | null;
  readonly name: SectionFunction | 'end' | 'start';
  /** How good a moment it is, 0 to 1. Common practice, no source. */
  readonly weight: Fraction;
}

/** How well the next record takes over where such a section of A begins. */
const LEAVING: Readonly<Record<SectionFunction, Fraction>> = {
  outro: 1,
  breakdown: 0.85,
  'build-up': 0.3,
  main: 0.35,
  drop: 0.3,
  intro: 0.1,
};

/** How much it is worth to have such a section of B begin there. */
const ARRIVING: Readonly<Record<SectionFunction, Fraction>> = {
  drop: 1,
  main: 0.95,
  'build-up': 0.45,
  breakdown: 0.4,
  intro: 0.1,
  outro: 0,
};

/** A record is wanted to have played for this share of its beats before it is left; and B to arrive before this one. */
const PLAYED: Fraction = 0.55;
const ARRIVED: Fraction = 0.4;

/** What of a weight is left where a section only goes on from another of its kind. */
const GOES_ON: Fraction = 0.4;

/** And of B's later arrivals, once the first has gone by unheard. */
const LATER: Fraction = 0.8;

/** The moments at which A can be left: every section start but the first, phrase starts behind, and its end. */
export function leavingMoments(count: TrackCount): Moment[] {
  const { bars, end } = count;
  const played = (beat: number) => Math.min(1, 0.25 + (0.75 * beat) / Math.max(1, PLAYED * end));
  const lastBass = bars.findLastIndex((bar) => bassIn(count, bar) > 0.5);
  const moments = bars.flatMap((bar, i): Moment[] => {
    if (i === 0 || bar.startsPhrase === null) return [];
    const { startsSection, firstBeat: beat } = bar;
    const name = startsSection?.function ?? bar.section?.function;
    if (name === undefined) return [];
    const goesOn = bars[i - 1].section?.function === name;
    // the bass leaves here, for good: whatever the section is called, this is where A makes room
    const left = bassIn(count, bars[i - 1]) > 0.5 && bassIn(count, bar) < 0.3;
    // an outro that begins when the bass has long gone is no more than the next step of leaving
    const late = name === 'outro' && i > lastBass + 1 ? 0.55 : 1;
    const own = Math.max(
      startsSection ? LEAVING[name] * late * (goesOn ? GOES_ON : 1) : 0.2,
      left && i > lastBass ? (startsSection && !goesOn ? 0.98 : 0.6) : 0,
      left ? 0.4 : 0,
    );
    return [{ beat, bar, name, weight: own * played(beat) * sureness(startsSection?.confidence ?? null) }];
  });
  return end > 0 ? [...moments, { beat: end, bar: null, name: 'end', weight: 0.45 }] : moments;
}

/** The moments at which B arrives: section starts, entries of its bass at a phrase, and its first bar. */
export function arrivingMoments(count: TrackCount): Moment[] {
  const { bars, end } = count;
  const early = (beat: number) =>
    beat <= ARRIVED * end ? 1 : Math.max(0.2, 1 - (beat / Math.max(1, end) - ARRIVED) * 1.6);
  const firstBass = bars.findIndex((bar) => bassIn(count, bar) > 0.5);
  const first = bars.find((bar) => bar.startsSection?.function === 'main' || bar.startsSection?.function === 'drop');
  return bars.flatMap((bar, i): Moment[] => {
    if (bar.startsPhrase === null && i > 0) return [];
    const { startsSection, firstBeat: beat } = bar;
    if (i === 0) return [{ beat, bar, name: 'start', weight: 0.3 }];
    const name = startsSection?.function ?? bar.section?.function;
    if (name === undefined || beat > 0.75 * end) return [];
    const goesOn = bars[i - 1].section?.function;
    // a drop or main part after another one is no arrival
    const fresh = goesOn === name || ((name === 'main' || name === 'drop') && (goesOn === 'main' || goesOn === 'drop'));
    const enters = bassIn(count, bars[i - 1]) < 0.3 && bassIn(count, bar) > 0.5;
    const own = Math.max(
      startsSection ? ARRIVING[name] * (fresh ? GOES_ON : 1) : 0,
      enters ? (i === firstBass && startsSection ? 0.6 : 0.45) : 0,
    );
    const again = first !== undefined && bar.number > first.number ? LATER : 1;
    const weight = own * again * early(beat) * sureness(startsSection?.confidence ?? null);
    return weight > 0 ? [{ beat, bar, name, weight }] : [];
  });
}

function bassIn(count: TrackCount, bar: CountedBar): Fraction {
  return presence(count, 'bass', bar) ?? 0.4;
}

/** A section that is not sure counts for less; what cannot be judged stands in the middle. */
function sureness(confidence: number | null): Fraction {
  return 0.5 + 0.5 * (confidence ?? 0.5);
}
