import { countRows, tellTrack, type TrackAnalysis } from '../../src/track/index.js';
import { LANGUAGES, type Language } from '../../src/wording/index.js';

/** A bar or a span of bars, and a clock time, as either language says them. */
const BARS = /\b(?:bars?|Takte?) (\d+)(?:(?:–| and | und | to | bis )(\d+))?/gi;
const CLOCK = /\b(\d+:\d\d[.,]\d+)\b/g;
/** Everything of a story that names a place. */
export function sentencesOf(analysis: TrackAnalysis, language: Language): string[] {
  const story = tellTrack(analysis, language);
  return [
    ...story.opening,
    ...story.sections.flatMap(({ head, items }) => [head, ...items]),
    ...story.breaks.flatMap((b) => [b.sentence, b.evidence ?? '', b.alternative ?? '']),
  ];
}

/** The bars and times that sentences name and the count table does not have. */
export function notInCountTable(
  sentences: readonly string[],
  analysis: TrackAnalysis,
  language: Language = 'en',
): string[] {
  const words = LANGUAGES[language];
  const rows = countRows(analysis, language);
  const bars = new Set(rows.map((r) => r.bar));
  const table = new Set([
    ...rows.map((r) => words.clock(r.time)),
    ...rows.flatMap((r) => r.happens.flatMap((text) => [...text.matchAll(CLOCK)].map(([, t]) => t))),
  ]);
  return sentences.flatMap((text): string[] => [
    ...[...text.matchAll(BARS)].flatMap(([, a, b]) => [a, b].filter((n) => n !== undefined && !bars.has(Number(n)))),
    ...[...text.matchAll(CLOCK)].map(([, t]) => t).filter((t) => !table.has(t)),
  ]);
}
