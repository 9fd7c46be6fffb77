import { barRange, clock } from '../../units/index.js';
import type { StoryWords } from '../story-words.js';
import { CORE } from './core.js';
import { runs } from '../runs.js';
import { evidenceNumber } from '../evidence.js';
import { EVIDENCE } from './evidence.js';

const { bars, beats, number, percent } = CORE;
const bpm = (value: number) => `${number(value, 2)} BPM`;
const STEADY = {
  constant: 'held by a clock',
  steps: 'in steps',
  drifting: 'drifting',
  free: 'without a steady tempo',
} as const;
const SUBJECTS = {
  tempo: 'The tempo',
  metre: 'The number of beats in a bar',
  beat: 'Where the beat falls',
  'bar one': 'Which beat is the one of the bar',
  key: 'The key',
} as const;

export const STORY: StoryWords = {
  opening: (f) =>
    `${f.tempo}, ${STEADY[f.steadiness]}; ${beats(f.beatsPerBar)} to the bar; ${bars(f.bars)} in ${f.length}. ` +
    `The usual phrase has ${bars(f.phraseBars)}, ${beats(f.phraseBars * f.beatsPerBar)}.`,
  key: (key) => `Key: ${key}.`,
  firstOne: (bar, time) => `The first one: bar ${bar}, at ${clock(time)}.`,
  headings: {
    told: 'What happens on each one',
    breaks: 'Where it leaves its own pattern',
    doubt: 'In doubt',
    corrected: 'As somebody has said',
  },
  section({ name, doubt, startBar, endBar, start, bars: n, phrases }) {
    const parts = phrases.length > 1 ? ` as ${runs(phrases)}` : '';
    return `${name}${doubt === '' ? '' : ` (${doubt})`}: bars ${barRange(startBar, endBar)}, from ${clock(start)}; ${bars(n)}${parts}`;
  },
  like: (name, bar) => `like the ${name} from bar ${bar}`,
  place: (bar, time) => `bar ${bar}, ${clock(time)}`,
  placeOfBeat: (bar, beat, time) => `bar ${bar}, beat ${beat}, ${clock(time)}`,
  phrase: (n, length) => `phrase ${n}, ${bars(length)}`,
  nothingChanges: 'goes on',
  regular: 'Nowhere: every phrase has a length that fits.',
  noneSure: 'Nowhere that is sure enough to tell; phrases that do not fit stand under "In doubt".',
  evidence: (items) => `What speaks for it: ${items.join('; ')}.`,
  orStartsAt: (bar, time, share) =>
    `It could also be counted so: a phrase starts at bar ${bar}, ${clock(time)} (${percent(share)} of the evidence).`,
  doubtWith: (word, share) => `${word}, ${share}`,
  number: (name, value) => evidenceNumber(EVIDENCE, name, value),
  tempoDoubt(readings) {
    const said = readings.map(
      (r) =>
        `${bpm(r.bpm)} (${r.weight === null ? 'felt so for a good part' : `${percent(r.weight)} of the evidence`})`,
    );
    return `The tempo can be counted in two ways: ${said.join(' or ')}.`;
  },
  doubtOf: (what, word, others) =>
    `${SUBJECTS[what]} is ${word}${others === '' ? '' : `; it might also be ${others}`}.`,
  layerDoubt: (layer, n, of) =>
    `Whether there is ${layer === 'voice' ? 'a voice' : layer} cannot be judged in ${n} of ${bars(of)}.`,
  noDoubt: 'Nothing that matters for counting.',
  shiftedOne: (n) => `${beats(Math.abs(n))} ${n > 0 ? 'later' : 'earlier'}`,
  beatsPerBar: (n) => `${n}`,
  corrections: {
    tempo: (value) => `the tempo is ${bpm(value)}`,
    metre: (n) => `a bar has ${beats(n)}`,
    tempoRange: (low, high) => `the tempo lies between ${bpm(low)} and ${bpm(high)}`,
    firstOne: (time) => `the first one is at ${clock(time, 2)}`,
    beat: (time) => `a beat falls at ${clock(time, 2)}`,
    bar: (time) => `a bar starts at ${clock(time, 2)}`,
    phrase: (time, starts) => `${starts ? 'a' : 'no'} phrase starts at ${clock(time, 2)}`,
    section: (time, name, starts) =>
      `${starts ? (name === null ? 'a section' : `a section (${name})`) : 'no section'} starts at ${clock(time, 2)}`,
    event: (time, said, happens) => `${said} at ${clock(time, 2)}${happens ? '' : ' does not happen'}`,
  },
  changed: {
    tempo: 'tempo',
    metre: 'beats to the bar',
    'first one': 'first one',
    beats: 'beats',
    bars: 'bars',
    phrase: 'phrase start',
    section: 'section',
    event: 'layer',
    irregularity: 'out of pattern',
  },
  columns: { bar: 'bar', time: 'time', count: 'count', phrase: 'phrase', section: 'section', happens: 'what happens' },
  inPhrase: (phrase, bar, length) => `${phrase}: ${bar} of ${length}`,
  notes: {
    over: (n) => `${bars(n)} over from here`,
    shortBefore: (n) => `the phrase before is ${bars(n)} short`,
    odd: (n) => `odd phrase of ${bars(n)}`,
    beats: (n) => `this bar has ${beats(n)}`,
    pickUp: (n, time) => `pick-up of ${beats(n)} from ${clock(time)}`,
    pickUpTo: () => 'after a pick-up',
    beatless: () => 'no beat from here',
    beatBack: () => 'the beat comes in',
    halfTime: () => 'half-time feel from here',
    halfTimeEnds: () => 'half-time feel ends',
    tempo: (value) => `tempo ${bpm(value)} from here`,
    drift: (low, high) => `drifts between ${bpm(low)} and ${bpm(high)}`,
    maybePhrase: () => 'perhaps a phrase',
  },
};
