import { barRange, clock, type Bpm } from '../../units/index.js';
import type { Filler, IrregularitySentences, LengthFacts } from '../sentences.js';
import { CORE } from './core.js';

const NUMBERS = 'no one two three four five six seven eight nine ten eleven twelve'.split(' ');

const FILLED: Readonly<Record<Filler, (bars: string, one: boolean) => string>> = {
  roll: (bars) => `a roll fills ${bars}`,
  quiet: (bars) => `in ${bars} the sound falls back`,
  repeat: (bars, one) => `${bars} ${one ? 'goes' : 'go'} on as before`,
};

function number(n: number): string {
  return NUMBERS[n] ?? `${n}`;
}

function count(n: number, unit: 'bar' | 'beat'): string {
  return `${number(n)} ${unit}${n === 1 ? '' : 's'}`;
}

function bpm(value: Bpm): string {
  return `${CORE.number(value, 2)} BPM`;
}

function bars(first: number, last: number): string {
  if (first === last) return `bar ${first}`;
  return last === first + 1 ? `bars ${first} and ${last}` : `bars ${barRange(first, last)}`;
}

function subject({ wholeSection, function: f, startBar, endBar }: LengthFacts): string {
  const span = `bars ${barRange(startBar, endBar)}`;
  return wholeSection ? `The ${CORE.functions[f]} of ${span}` : `The phrase of ${span}, in the ${CORE.functions[f]},`;
}

function usual({ usualOfTrack, usualBars }: LengthFacts): string {
  return usualOfTrack ? `this track's ${usualBars}` : `a regular ${usualBars}`;
}

function again({ nextBar, nextStart }: LengthFacts): string {
  return `the next phrase starts at bar ${nextBar}, count again from ${clock(nextStart)}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export const SENTENCES: IrregularitySentences = {
  added(facts) {
    const surplus = facts.bars - facts.usualBars;
    const extra = bars(facts.endBar - surplus + 1, facts.endBar);
    const one = surplus === 1;
    const what = facts.filler === null ? `${extra} ${one ? 'is' : 'are'} extra` : FILLED[facts.filler](extra, one);
    return `${subject(facts)} is ${count(surplus, 'bar')} longer than ${usual(facts)}: ${what}; ${again(facts)}.`;
  },
  dropped(facts) {
    const missing = facts.usualBars - facts.bars;
    const early = `${count(missing, 'bar')} ${missing === 1 ? 'is' : 'are'} missing at its end`;
    return `${subject(facts)} is ${count(missing, 'bar')} shorter than ${usual(facts)}: ${early}; ${again(facts)}.`;
  },
  odd(facts) {
    return `${subject(facts)} has ${count(facts.bars, 'bar')} where this track's phrases have ${facts.usualBars}, and does not fill its groups of four; ${again(facts)}.`;
  },
  pickUp({ layers, beats, bar, startTime, time }) {
    const who = layers.length === 0 ? 'something' : `the ${CORE.list(layers.map((l) => CORE.layers[l]))}`;
    const verb = layers.length > 1 ? 'come' : 'comes';
    return `${capital(who)} ${verb} in ${count(beats, 'beat')} before the one of bar ${bar}, at ${clock(startTime)}: a pick-up; the phrase itself starts on the one, at ${clock(time)}.`;
  },
  beats({ bar, time, beats, usualBeats, nextBar, nextStart }) {
    const change = Math.abs(beats - usualBeats);
    const what =
      beats > usualBeats
        ? `${count(beats, 'beat')} instead of ${number(usualBeats)}, ${number(change)} too many`
        : `only ${count(beats, 'beat')} instead of ${number(usualBeats)}, ${number(change)} too few`;
    const next =
      nextBar === null || nextStart === null
        ? ''
        : `; bar ${nextBar} follows at ${clock(nextStart)}, count again from there`;
    return `Bar ${bar}, at ${clock(time)}, has ${what}${next}.`;
  },
  tempoChange: ({ bar, time, from, to }) =>
    `From bar ${bar} on, at ${clock(time)}, the tempo is ${bpm(to)} instead of ${bpm(from)}.`,
  drift: ({ lowest, highest }) =>
    `The tempo is not held by a clock: it wanders between ${bpm(lowest)} and ${bpm(highest)}, so follow the beats and not one tempo.`,
  halfTime: ({ startBar, endBar, time, counted, felt }) =>
    `${capital(bars(startBar, endBar))}, from ${clock(time)}, ${startBar === endBar ? 'feels' : 'feel'} half as fast: counted at ${bpm(counted)}, felt at ${bpm(felt)}.`,
  beatless({ startBar, endBar, time, nextBar, nextStart }) {
    const returns =
      nextBar === null || nextStart === null
        ? 'it lasts to the end'
        : `the count goes on underneath, and the beat comes in at bar ${nextBar}, at ${clock(nextStart)}`;
    return `${capital(bars(startBar, endBar))}, from ${clock(time)}, ${startBar === endBar ? 'has' : 'have'} no beat: ${returns}.`;
  },
};
