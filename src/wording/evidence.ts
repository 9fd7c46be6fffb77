/** How a named number of the evidence is said: its words with a place for the value, and what it is measured in. */
export interface EvidenceWords {
  readonly say: (value: string) => string;
  readonly unit: EvidenceUnit;
}

/** What the evidence is measured in; `nats` are units of log-likelihood, shown as odds. */
export type EvidenceUnit = 'share' | 'decibels' | 'milliseconds' | 'beats' | 'bars' | 'times' | 'odds' | 'bpm';

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
export function evidenceUnit(name: string): EvidenceUnit | null {
  return ENDINGS.find(([ending]) => ending.test(name))?.[1] ?? null;
}

/** A name as words, without its unit. @example plainName('onsetRatio') // 'onset' */
export function plainName(name: string): string {
  return name
    .replace(/(Share|Decibels|Milliseconds|Ratio|Nats|Bpm|Beats|Bars)$/, '')
    .replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`)
    .trim();
}

/** Odds to one from a log-likelihood in nats, cut at a million. */
export function oddsOf(nats: number): number {
  return Math.min(Math.exp(Math.abs(nats)), 1e6);
}
