import type { AnalysisBar, AnalysisPhrase, AnalysisSection, TrackAnalysis } from '../track/index.js';
import type { Seconds } from '../units/index.js';
import type { PatternBreaks } from './pattern.js';

/** A bar with its place in the analysis and its end. */
export interface RowBar {
  readonly bar: AnalysisBar;
  /** Index into `TrackAnalysis.bars` and into the presences of the layers. */
  readonly index: number;
  readonly end: Seconds;
}

/** What goes on one rung, before it has a place. */
export interface Row {
  readonly phrase: AnalysisPhrase | null;
  readonly part: number;
  readonly parts: number;
  readonly section: AnalysisSection | null;
  readonly sectionStart: boolean;
  readonly dropLands: boolean;
  readonly hanging: readonly RowBar[];
  readonly bars: readonly RowBar[];
  /** Bars missing after the last one. */
  readonly missing: number;
}

/** Parts the bars of a track into rows: one a phrase, long phrases in rows of the usual length. */
export function ladderRows(analysis: TrackAnalysis, breaks: PatternBreaks): readonly Row[] {
  const all = withEnds(analysis);
  const hanging = all.filter((b) => b.bar.number < 1);
  const whole = all.filter((b) => b.bar.number >= 1);
  const rows: Row[] = [];
  for (const { phrase, bars } of byPhrase(whole, analysis.phrases)) {
    const parts = atSections(bars, analysis.sections).flatMap((run) => splitBars(run, analysis.phraseBars, breaks));
    parts.forEach((part, i) => {
      const section = sectionAt(analysis, part[0].bar.number);
      const sectionStart = section !== null && (rows.length === 0 || section.startBar === part[0].bar.number);
      const before = section === null ? undefined : analysis.sections[analysis.sections.indexOf(section) - 1];
      rows.push({
        phrase,
        part: i + 1,
        parts: parts.length,
        section,
        sectionStart,
        dropLands: sectionStart && section.function === 'drop' && before !== undefined && before.function !== 'drop',
        hanging: rows.length === 0 ? hanging : [],
        bars: part,
        missing: breaks.missing.get(part.at(-1)!.bar.number) ?? 0,
      });
    });
  }
  if (rows.length === 0 && hanging.length > 0) {
    const section = analysis.sections[0] ?? null;
    const alone = {
      part: 1,
      parts: 1,
      section,
      sectionStart: section !== null,
      dropLands: false,
      bars: [],
      missing: 0,
    };
    rows.push({ phrase: analysis.phrases[0] ?? null, ...alone, hanging });
  }
  return rows;
}

function withEnds(analysis: TrackAnalysis): readonly RowBar[] {
  const { bars } = analysis;
  return bars.map((bar, index) => ({ bar, index, end: bars[index + 1]?.start ?? lastEnd(analysis, bar) }));
}

function lastEnd(analysis: TrackAnalysis, bar: AnalysisBar): Seconds {
  const phrase = analysis.phrases.at(-1);
  if (phrase !== undefined && phrase.end > bar.start) return phrase.end;
  return bar.start + (bar.beats * 60) / analysis.tempo.bpm;
}

/** Runs of bars of the same phrase, in order; bars that no phrase holds form runs of their own. */
function byPhrase(bars: readonly RowBar[], phrases: readonly AnalysisPhrase[]) {
  const runs: { phrase: AnalysisPhrase | null; bars: RowBar[] }[] = [];
  for (const bar of bars) {
    const phrase = phrases.find((p) => p.startBar <= bar.bar.number && bar.bar.number <= p.endBar) ?? null;
    const last = runs.at(-1);
    if (last?.phrase === phrase) last.bars.push(bar);
    else runs.push({ phrase, bars: [bar] });
  }
  return runs;
}

/** Sections are unions of phrases; where one starts inside a phrase all the same, the row is parted there. */
function atSections(bars: readonly RowBar[], sections: readonly AnalysisSection[]): readonly (readonly RowBar[])[] {
  const starts = new Set(sections.map((s) => s.startBar));
  const runs: RowBar[][] = [];
  for (const bar of bars) {
    if (runs.length === 0 || starts.has(bar.bar.number)) runs.push([bar]);
    else runs.at(-1)!.push(bar);
  }
  return runs;
}

/** Rows of the usual length; the last one also takes the surplus bars when they are not more than half of it. */
function splitBars(bars: readonly RowBar[], usual: number, breaks: PatternBreaks): readonly (readonly RowBar[])[] {
  const surplus = bars.filter((b) => breaks.surplus.has(b.bar.number)).length;
  const longest = usual + (surplus <= usual / 2 ? surplus : 0);
  const rows: (readonly RowBar[])[] = [];
  let from = 0;
  while (bars.length - from > longest) {
    rows.push(bars.slice(from, from + usual));
    from += usual;
  }
  rows.push(bars.slice(from));
  return rows;
}

function sectionAt(analysis: TrackAnalysis, bar: number): AnalysisSection | null {
  return analysis.sections.find((s) => s.startBar <= bar && bar <= s.endBar) ?? null;
}
