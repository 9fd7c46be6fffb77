import type { TrackAnalysis } from '../track/index.js';
import { LAYERS, type BarNumber } from '../units/index.js';
import type { Piece } from './flow.js';
import type { RungChange } from './geometry.js';
import { parameter, type PatternBreaks } from './pattern.js';
import type { Row } from './rows.js';
import type { LadderWords } from './words.js';

/** Below this confidence, or where it cannot be judged, a question mark says so. */
export const DOUBT_BELOW = 0.5;
export const isDoubtful = (confidence: number | null): boolean => confidence === null || confidence < DOUBT_BELOW;

/** What enters and leaves in the bars of a row: layers that do so on the same beat together, in order of time. */
export function rowChanges(analysis: TrackAnalysis, row: Row): readonly RungChange[] {
  const bars = barsOf(row);
  const changes = new Map<string, RungChange>();
  for (const event of analysis.events) {
    if (!bars.has(event.bar)) continue;
    const doubtful = isDoubtful(event.confidence);
    const key = [event.bar, event.beat, event.change, doubtful].join();
    const { bar, beat, change } = event;
    const layers = [...(changes.get(key)?.layers ?? []), event.layer];
    layers.sort((a, b) => LAYERS.indexOf(a) - LAYERS.indexOf(b));
    changes.set(key, { bar, beat, change, layers, doubtful });
  }
  return [...changes.values()].sort(
    (a, b) => a.bar - b.bar || a.beat - b.beat || Number(b.change === 'leaves') - Number(a.change === 'leaves'),
  );
}

/** The irregularities whose place is in a row: phrases too long or too short where they end, the others at their bar. */
export function rowIrregularities(analysis: TrackAnalysis, row: Row): TrackAnalysis['irregularities'] {
  const bars = barsOf(row);
  return analysis.irregularities.filter((irregularity) => {
    const endBar = parameter(irregularity, 'usualBars') === null ? null : parameter(irregularity, 'endBar');
    return bars.has(endBar ?? irregularity.bar);
  });
}

/** The remarks under a row, in the order in which they are read. */
export function rowRemarks(
  analysis: TrackAnalysis,
  row: Row,
  breaks: PatternBreaks,
  words: LadderWords,
): readonly Piece[] {
  const pieces: Piece[] = [];
  if (row.dropLands) pieces.push({ text: words.dropLands, bold: true, role: 'ink' });
  const first = row.bars[0]?.bar.number;
  for (const change of rowChanges(analysis, row)) {
    pieces.push({ text: words.change(change, change.bar === first), bold: false, role: 'ink' });
  }
  const lastBar = analysis.bars.at(-1)?.number;
  const spoken = new Set<number>();
  for (const irregularity of rowIrregularities(analysis, row)) {
    const endBar = parameter(irregularity, 'endBar');
    const barBeats = analysis.bars.find((b) => b.number === irregularity.bar)?.beats ?? null;
    const text = words.irregularity(irregularity, endBar === lastBar, barBeats);
    if (text === null) continue;
    if (endBar !== null && parameter(irregularity, 'usualBars') !== null) spoken.add(endBar);
    pieces.push({ text, bold: true, role: 'accent' });
  }
  const end = row.bars.at(-1)?.bar.number;
  if (end !== undefined && breaks.broken.has(end) && !spoken.has(end) && row.phrase !== null) {
    pieces.push({ text: words.oddPhrase(row.phrase.bars), bold: true, role: 'accent' });
  }
  return pieces;
}

function barsOf(row: Row): ReadonlySet<BarNumber> {
  return new Set([...row.hanging, ...row.bars].map((b) => b.bar.number));
}
