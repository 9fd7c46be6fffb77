import { barRange } from '../../units/index.js';
import type { StoryWords } from '../story-words.js';
import { CORE } from './core.js';
import { runs } from '../runs.js';
import { evidenceNumber } from '../evidence.js';
import { EVIDENCE } from './evidence.js';

const { bars, beats, clock, number, percent } = CORE;
const bpm = (value: number) => `${number(value, 2)} BPM`;
const STEADY = {
  constant: 'von einer Uhr gehalten',
  steps: 'in Stufen',
  drifting: 'schwankend',
  free: 'ohne festes Tempo',
} as const;
const SUBJECTS = {
  tempo: 'Das Tempo',
  metre: 'Die Zahl der Schläge im Takt',
  beat: 'Wo der Schlag liegt,',
  'bar one': 'Welcher Schlag die Eins des Takts ist,',
  key: 'Die Tonart',
} as const;

export const STORY: StoryWords = {
  opening: (f) =>
    `${f.tempo}, ${STEADY[f.steadiness]}; ${beats(f.beatsPerBar)} im Takt; ${bars(f.bars)} in ${f.length}. ` +
    `Die übliche Phrase hat ${bars(f.phraseBars)}, ${beats(f.phraseBars * f.beatsPerBar)}.`,
  key: (key) => `Tonart: ${key}.`,
  firstOne: (bar, time) => `Die erste Eins: Takt ${bar}, bei ${clock(time)}.`,
  headings: {
    told: 'Was auf jeder Eins geschieht',
    breaks: 'Wo das Stück aus seinem Muster fällt',
    doubt: 'Im Zweifel',
    corrected: 'Wie jemand gesagt hat',
  },
  section({ name, doubt, startBar, endBar, start, bars: n, phrases }) {
    const parts = phrases.length > 1 ? ` als ${runs(phrases)}` : '';
    return `${name}${doubt === '' ? '' : ` (${doubt})`}: Takte ${barRange(startBar, endBar)}, ab ${clock(start)}; ${bars(n)}${parts}`;
  },
  like: (name, bar) => `wie ${name} ab Takt ${bar}`,
  place: (bar, time) => `Takt ${bar}, ${clock(time)}`,
  placeOfBeat: (bar, beat, time) => `Takt ${bar}, Schlag ${beat}, ${clock(time)}`,
  phrase: (n, length) => `Phrase ${n}, ${bars(length)}`,
  nothingChanges: 'geht weiter',
  regular: 'Nirgends: jede Phrase hat eine Länge, die passt.',
  noneSure: 'Nirgends so sicher, dass es zu sagen wäre; Phrasen, die nicht passen, stehen unter „Im Zweifel“.',
  evidence: (items) => `Was dafür spricht: ${items.join('; ')}.`,
  orStartsAt: (bar, time, share) =>
    `Man könnte auch so zählen: eine Phrase beginnt in Takt ${bar}, ${clock(time)} (${percent(share)} der Anhaltspunkte).`,
  doubtWith: (word, share) => `${word}, ${share}`,
  number: (name, value) => evidenceNumber(EVIDENCE, name, value),
  tempoDoubt(readings) {
    const said = readings.map(
      (r) =>
        `${bpm(r.bpm)} (${r.weight === null ? 'zu einem guten Teil so gefühlt' : `${percent(r.weight)} der Anhaltspunkte`})`,
    );
    return `Das Tempo lässt sich auf zwei Arten zählen: ${said.join(' oder ')}.`;
  },
  doubtOf: (what, word, others) =>
    `${SUBJECTS[what]} ist ${word}${others === '' ? '' : `; möglich wäre auch: ${others}`}.`,
  layerDoubt: (layer, n, of) => `${layer}: in ${n} von ${of} Takten nicht zu beurteilen.`,
  noDoubt: 'Nichts, was für das Zählen zählt.',
  shiftedOne: (n) => `${beats(Math.abs(n))} ${n > 0 ? 'später' : 'früher'}`,
  beatsPerBar: (n) => `${n}`,
  corrections: {
    tempo: (value) => `das Tempo ist ${bpm(value)}`,
    metre: (n) => `ein Takt hat ${beats(n)}`,
    tempoRange: (low, high) => `das Tempo liegt zwischen ${bpm(low)} und ${bpm(high)}`,
    firstOne: (time) => `die erste Eins liegt bei ${clock(time, 2)}`,
    beat: (time) => `ein Schlag liegt bei ${clock(time, 2)}`,
    bar: (time) => `ein Takt beginnt bei ${clock(time, 2)}`,
    phrase: (time, starts) => `${starts ? 'eine' : 'keine'} Phrase beginnt bei ${clock(time, 2)}`,
    section: (time, name, starts) =>
      `${starts ? (name === null ? 'ein Abschnitt' : `ein Abschnitt (${name})`) : 'kein Abschnitt'} beginnt bei ${clock(time, 2)}`,
    event: (time, said, happens) => `${said} bei ${clock(time, 2)}${happens ? '' : ' geschieht nicht'}`,
  },
  changed: {
    tempo: 'Tempo',
    metre: 'Schläge im Takt',
    'first one': 'erste Eins',
    beats: 'Schläge',
    bars: 'Takte',
    phrase: 'Phrasenbeginn',
    section: 'Abschnitt',
    event: 'Ebene',
    irregularity: 'aus dem Muster',
  },
  columns: {
    bar: 'Takt',
    time: 'Zeit',
    count: 'Zählung',
    phrase: 'Phrase',
    section: 'Abschnitt',
    happens: 'was geschieht',
  },
  inPhrase: (phrase, bar, length) => `${phrase}: ${bar} von ${length}`,
  notes: {
    over: (n) => `ab hier ${bars(n)} zu viel`,
    shortBefore: (n) => `der Phrase davor ${n === 1 ? 'fehlt' : 'fehlen'} ${bars(n)}`,
    odd: (n) => `ungerade Phrase: ${bars(n)}`,
    beats: (n) => `dieser Takt hat ${beats(n)}`,
    pickUp: (n, time) => `Auftakt (${beats(n)}) ab ${clock(time)}`,
    pickUpTo: () => 'nach einem Auftakt',
    beatless: () => 'ab hier kein Beat',
    beatBack: () => 'der Beat setzt ein',
    halfTime: () => 'ab hier Half-Time-Gefühl',
    halfTimeEnds: () => 'Half-Time-Gefühl endet',
    tempo: (value) => `ab hier Tempo ${bpm(value)}`,
    drift: (low, high) => `schwankt zwischen ${bpm(low)} und ${bpm(high)}`,
    maybePhrase: () => 'vielleicht eine Phrase',
  },
};
