import type { TrackAnalysis } from '../track/index.js';
import type { BarNumber, Seconds } from '../units/index.js';
import { onTheOne } from '../wording/index.js';

/** Something to count towards: a phrase starts, a section with it, layers enter or leave. */
export interface Moment {
  readonly bar: BarNumber;
  readonly time: Seconds;
  /** What happens, in a few words: "the drop lands: kick in, bass in". */
  readonly words: string;
}

/** Everything that happens in a track in the order of its bars; what happens in one bar is one moment. */
export function momentsOf(analysis: TrackAnalysis): Moment[] {
  const bars = new Set<BarNumber>([
    ...analysis.phrases.map((p) => p.startBar),
    ...analysis.sections.map((s) => s.startBar),
    ...analysis.events.map((e) => e.bar),
  ]);
  const starts = new Map(analysis.bars.map((b) => [b.number, b.start]));
  return [...bars]
    .sort((a, b) => a - b)
    .filter((bar) => starts.has(bar))
    .map((bar) => ({ bar, time: starts.get(bar)!, words: wordsFor(analysis, bar) }));
}

function wordsFor(analysis: TrackAnalysis, bar: BarNumber): string {
  const section = analysis.sections.find((s) => s.startBar === bar)?.function ?? null;
  const phrase = analysis.phrases.find((p) => p.startBar === bar);
  const words = onTheOne(
    section,
    analysis.events.filter((e) => e.bar === bar),
  );
  return section === null && phrase ? [`phrase ${phrase.number}`, words].filter(Boolean).join(': ') : words;
}
