import type { Words } from './words.js';

/** What the evidence is measured in; `nats` are units of log-likelihood, shown as odds. */
type EvidenceUnit = 'share' | 'decibels' | 'milliseconds' | 'beats' | 'bars' | 'times' | 'odds' | 'bpm';

/** The endings by which a name tells its unit. */
const ENDINGS: readonly (readonly [RegExp, EvidenceUnit])[] = [
  [/Share$/, 'share'],
  [/Decibels$/, 'decibels'],
  [/Milliseconds$/, 'milliseconds'],
  [/(Ratio|Over[A-Z]\w*)$/, 'times'],
  [/Nats$/, 'odds'],
  [/Bpm$/, 'bpm'],
  [/(^b|B)eats/, 'beats'],
  [/(^b|B)ars/, 'bars'],
];

/** The unit that the name of a piece of evidence ends in; `null` where it has none. @example evidenceUnit('levelDecibels') // 'decibels' */
function evidenceUnit(name: string): EvidenceUnit | null {
  return ENDINGS.find(([ending]) => ending.test(name))?.[1] ?? null;
}

/** A name as words, without its unit. @example plainName('onsetRatio') // 'onset' */
function plainName(name: string): string {
  return name
    .replace(/(Share|Decibels|Milliseconds|Ratio|Nats|Bpm|Beats|Bars)$/, '')
    .replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`)
    .trim();
}

/** Odds to one from a log-likelihood in nats, cut at a million. */
function oddsOf(nats: number): number {
  return Math.min(Math.exp(Math.abs(nats)), 1e6);
}

/** What a language says of evidence: the small formats, how often is "3 times", and what each named number means. */
export interface EvidenceWords {
  readonly core: Pick<Words, 'tag' | 'number' | 'percent' | 'beats' | 'bars'>;
  readonly times: (count: string) => string;
  readonly known: Readonly<Record<string, (value: string) => string>>;
}

/** A named number of the evidence in words, with its unit; `null` where its name tells none. */
export function evidenceNumber(words: EvidenceWords, name: string, value: number): string | null {
  const unit = evidenceUnit(name);
  if (unit === null) return null;
  return (words.known[name] ?? ((v: string) => `${plainName(name)}: ${v}`))(withUnit(words, value, unit));
}

function withUnit({ core, times }: EvidenceWords, value: number, unit: EvidenceUnit): string {
  switch (unit) {
    case 'share':
      return core.percent(value);
    case 'decibels':
      return `${value > 0 ? '+' : ''}${core.number(value, 1)} dB`;
    case 'milliseconds':
      return `${core.number(value, 1)} ms`;
    case 'times':
      return times(core.number(value, 1));
    case 'odds':
      return times(oddsOf(value).toLocaleString(core.tag, { maximumSignificantDigits: 2 }));
    case 'bpm':
      return `${core.number(value, 2)} BPM`;
    case 'beats':
      return core.beats(Math.round(value));
    case 'bars':
      return core.bars(Math.round(value));
  }
}
