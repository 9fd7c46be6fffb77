import type { AnalysisIrregularity, AnalysisPhrase, TrackAnalysis } from '../track/index.js';
import type { BarNumber } from '../units/index.js';

/** Where phrases leave the pattern of the track, bar by bar. */
export interface PatternBreaks {
  /** Bars beyond the usual length. */
  readonly surplus: ReadonlySet<BarNumber>;
  /** By the last bar of a phrase: how many bars are missing after it. */
  readonly missing: ReadonlyMap<BarNumber, number>;
  /** Last bars of phrases that end too late or too early. */
  readonly broken: ReadonlySet<BarNumber>;
  readonly beatless: ReadonlySet<BarNumber>;
}

/** Reads a number of an irregularity's parameters. */
export function parameter(irregularity: AnalysisIrregularity, name: string): number | null {
  const value = irregularity.parameters[name];
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

/** Collects surplus, missing and beatless bars; irregular phrases that no irregularity speaks of are judged by length. */
export function patternBreaks(analysis: TrackAnalysis): PatternBreaks {
  const surplus = new Set<BarNumber>();
  const missing = new Map<BarNumber, number>();
  const broken = new Set<BarNumber>();
  const beatless = new Set<BarNumber>();
  const note = (endBar: BarNumber, bars: number, usual: number) => {
    if (bars === usual) return;
    broken.add(endBar);
    if (bars < usual) missing.set(endBar, usual - bars);
    for (let bar = endBar - (bars - usual) + 1; bar <= endBar; bar++) surplus.add(bar);
  };
  for (const irregularity of analysis.irregularities) {
    const endBar = parameter(irregularity, 'endBar');
    if (endBar === null) continue;
    if (irregularity.kind === 'beatless-passage') {
      for (let bar = irregularity.bar; bar <= endBar; bar++) beatless.add(bar);
    }
    const [bars, usual] = [parameter(irregularity, 'bars'), parameter(irregularity, 'usualBars')];
    if (bars !== null && usual !== null && !broken.has(endBar)) note(endBar, bars, usual);
  }
  for (const phrase of analysis.phrases) {
    if (!phrase.regular && !broken.has(phrase.endBar)) {
      note(phrase.endBar, phrase.bars, usualLength(phrase, analysis.phraseBars));
    }
  }
  return { surplus, missing, broken, beatless };
}

/** The length that an irregular phrase was most likely heading for: whole usual phrases, else a half or a quarter of one. */
function usualLength(phrase: AnalysisPhrase, phraseBars: number): number {
  if (phrase.bars > phraseBars) return phrase.bars - (phrase.bars % phraseBars);
  const targets = [phraseBars / 4, phraseBars / 2, phraseBars].filter((bars) => bars >= 4 && bars >= phrase.bars);
  return targets[0] ?? phraseBars;
}
