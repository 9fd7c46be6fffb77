import { barRange, clock, type Bpm } from '../units/index.js';
import type { Filler, LengthFacts, Words } from './words.js';

const NUMBERS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];

const FUNCTIONS = {
  intro: 'intro',
  'build-up': 'build-up',
  drop: 'drop',
  main: 'main part',
  breakdown: 'breakdown',
  outro: 'outro',
} as const;

const FILLERS: Readonly<Record<Filler, string>> = {
  roll: ', filled by a roll',
  quiet: ', where the sound falls back',
  repeat: ', going on as before',
};

function number(n: number): string {
  return NUMBERS[n] ?? `${n}`;
}

function count(n: number, unit: 'bar' | 'beat'): string {
  return `${number(n)} ${unit}${n === 1 ? '' : 's'}`;
}

function bpm(value: Bpm): string {
  return `${Math.round(value * 100) / 100} BPM`;
}

function list(items: readonly string[]): string {
  return items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]}`;
}

function bars(first: number, last: number): string {
  if (first === last) return `bar ${first}`;
  return last === first + 1 ? `bars ${first} and ${last}` : `bars ${barRange(first, last)}`;
}

function subject({ wholeSection, function: f, startBar, endBar }: LengthFacts): string {
  const span = `bars ${barRange(startBar, endBar)}`;
  return wholeSection ? `The ${FUNCTIONS[f]} of ${span}` : `The phrase of ${span}, in the ${FUNCTIONS[f]},`;
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

/** English, with the count and clock of the printed pieces. */
export const ENGLISH: Words = {
  layers: { kick: 'kick', bass: 'bass', percussion: 'percussion', harmony: 'harmony', voice: 'voice' },
  functions: FUNCTIONS,
  changes: { enters: 'in', leaves: 'out' },
  drums: 'drums',
  everything: 'everything',
  dropLands: 'the drop lands',
  doubt: { sure: 'sure', fairly: 'fairly sure', not: 'not sure', unknown: 'cannot be judged' },
  key: (tonic, mode) => `${tonic} ${mode}`,
  either: (first, second) => `${first} or ${second}?`,
  change: (layer, change) => `${layer} ${change}`,
  list,
  irregularity: {
    added(facts) {
      const surplus = facts.bars - facts.usualBars;
      const first = facts.endBar - surplus + 1;
      const extra = `${bars(first, facts.endBar)} ${surplus === 1 ? 'is' : 'are'} extra`;
      const filler = facts.filler === null ? '' : FILLERS[facts.filler];
      return `${subject(facts)} is ${count(surplus, 'bar')} longer than ${usual(facts)}: ${extra}${filler}; ${again(facts)}.`;
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
      const who = layers.length === 0 ? 'something' : `the ${list(layers)}`;
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
  },
};
