import type { TrackAnalysis } from '../../track/index.js';

/** Tables into which an analysis can be taken apart: one row a thing, one column a fact. @public */
export const TABLES = ['beats', 'bars', 'phrases', 'sections', 'events', 'irregularities'] as const;
/** One of `TABLES`. @public */
export type TableName = (typeof TABLES)[number];

/** A cell; `null` is "not known". @public */
export type Cell = string | number | boolean | null;
/** A row of a table: cells by the names of their columns. @public */
export type Row = Readonly<Record<string, Cell>>;

/**
 * The rows of one table. Every row carries the digest of the track's audio, so that the tables of a crate can be laid
 * one under the other; times are seconds to 0.1 ms, bars count from 1.
 * @public
 */
export function toRows(analysis: TrackAnalysis, table: TableName): Row[] {
  const track = analysis.source.audioDigest;
  return MAKE[table](analysis).map((row) => ({ track, ...row }));
}

const MAKE: Record<TableName, (analysis: TrackAnalysis) => Row[]> = {
  beats: ({ bars, beats }) => {
    const rows: Row[] = [];
    let at = bars.length > 0 ? beats.findIndex((time) => time >= bars[0].start - 1e-4) : beats.length;
    for (const { number, group, groupBar, phrase, phraseBar, beats: count } of bars)
      for (let beat = 1; beat <= count && at < beats.length; beat++, at++)
        rows.push({ time: beats[at], bar: number, beat, group, groupBar, phrase, phraseBar });
    return rows;
  },
  bars: ({ bars, layers }) =>
    bars.map((bar, i) => ({
      start: bar.start,
      bar: bar.number,
      beats: bar.beats,
      group: bar.group,
      groupBar: bar.groupBar,
      phrase: bar.phrase,
      phraseBar: bar.phraseBar,
      ...Object.fromEntries(Object.entries(layers).map(([layer, presence]) => [layer, presence[i] ?? null])),
    })),
  phrases: ({ phrases }) => phrases.map((phrase) => ({ ...phrase })),
  sections: ({ sections }) => sections.map((section) => ({ ...section })),
  events: ({ events }) => events.map((event) => ({ ...event })),
  irregularities: ({ irregularities }) =>
    irregularities.map(({ kind, bar, time, confidence, explanation }) => ({
      kind,
      bar,
      time,
      confidence,
      explanation,
    })),
};
