import { evidenceUnit, oddsOf, plainName } from '../evidence.js';
import { CORE } from './core.js';

/** What each named number means; those that say nothing to a listener are left out by an empty text. */
const KNOWN: Readonly<Record<string, (value: string) => string>> = {
  startShare: (v) => `the start of the phrase is ${v} sure`,
  endShare: (v) => `the start of the next one ${v}`,
  levelDecibels: (v) => `the bars in question are ${v} in level against those before`,
  onsetRatio: (v) => `sounds begin in them ${v} as often`,
  pickUpShare: (v) => `that something starts early is ${v} sure`,
  phraseStartShare: (v) => `that the phrase starts on the one is ${v} sure`,
  gainNats: (v) => `the bars after it fit ${v} better so than counted straight on`,
  barBeats: (v) => `${v} in it`,
  beatsBefore: (v) => `${v} at the tempo before`,
  beatsAfter: (v) => `${v} at the new one`,
  spreadMilliseconds: (v) => `single beats scatter by ${v}`,
  windowBeats: (v) => `tempo taken over ${v}`,
  thirdBeatOverSecondAndFourth: (v) => `beat 3 is struck ${v} as hard as beats 2 and 4`,
  strokeShare: (v) => `drums strike there with ${v} of their usual strength`,
  offMilliseconds: (v) => `without the change the beats would come to lie ${v} off`,
  wanderMilliseconds: (v) => `the beats wander by ${v} within that`,
  drumShare: (v) => `drums make up ${v} of what is heard there`,
  bars: (v) => `it lasts ${v}`,
};

/** A named number of the evidence in words, with its unit; `null` where its name tells none. */
export function evidenceNumber(name: string, value: number): string | null {
  const unit = evidenceUnit(name);
  if (unit === null) return null;
  return (KNOWN[name] ?? ((v: string) => `${plainName(name)}: ${v}`))(withUnit(value, unit));
}

function withUnit(value: number, unit: NonNullable<ReturnType<typeof evidenceUnit>>): string {
  const sign = value > 0 ? '+' : '';
  switch (unit) {
    case 'share':
      return CORE.percent(value);
    case 'decibels':
      return `${sign}${CORE.number(value, 1)} dB`;
    case 'milliseconds':
      return `${CORE.number(value, 1)} ms`;
    case 'times':
      return `${CORE.number(value, 1)} times`;
    case 'odds':
      return `${oddsOf(value).toLocaleString('en', { maximumSignificantDigits: 2 })} times`;
    case 'bpm':
      return `${CORE.number(value, 2)} BPM`;
    case 'beats':
      return CORE.beats(Math.round(value));
    case 'bars':
      return CORE.bars(Math.round(value));
  }
}
