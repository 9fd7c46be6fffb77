import { evidenceUnit, oddsOf, plainName } from '../evidence.js';
import { CORE } from './core.js';

const KNOWN: Readonly<Record<string, (value: string) => string>> = {
  startShare: (v) => `der Beginn der Phrase ist zu ${v} sicher`,
  endShare: (v) => `der Beginn der nächsten zu ${v}`,
  levelDecibels: (v) => `der Pegel der fraglichen Takte liegt ${v} gegen die davor`,
  onsetRatio: (v) => `Klänge setzen in ihnen ${v} so oft ein`,
  pickUpShare: (v) => `dass etwas zu früh einsetzt, ist zu ${v} sicher`,
  phraseStartShare: (v) => `dass die Phrase auf der Eins beginnt, ist zu ${v} sicher`,
  gainNats: (v) => `die Takte danach passen so ${v} besser als gerade durchgezählt`,
  barBeats: (v) => `${v} darin`,
  beatsBefore: (v) => `${v} im Tempo davor`,
  beatsAfter: (v) => `${v} im neuen`,
  spreadMilliseconds: (v) => `einzelne Schläge streuen um ${v}`,
  windowBeats: (v) => `Tempo gemessen über ${v}`,
  thirdBeatOverSecondAndFourth: (v) => `Schlag 3 ist ${v} so kräftig wie Schlag 2 und 4`,
  strokeShare: (v) => `Drums schlagen dort mit ${v} ihrer üblichen Kraft`,
  offMilliseconds: (v) => `ohne den Wechsel lägen die Schläge am Ende ${v} daneben`,
  wanderMilliseconds: (v) => `die Schläge wandern darin um ${v}`,
  drumShare: (v) => `Drums machen dort ${v} des Klangs aus`,
  bars: (v) => `Dauer: ${v}`,
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
      return `${CORE.number(value, 1)}-mal`;
    case 'odds':
      return `${oddsOf(value).toLocaleString('de', { maximumSignificantDigits: 2 })}-mal`;
    case 'bpm':
      return `${CORE.number(value, 2)} BPM`;
    case 'beats':
      return CORE.beats(Math.round(value));
    case 'bars':
      return CORE.bars(Math.round(value));
  }
}
