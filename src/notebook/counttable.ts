import type { AnalysisBar, AnalysisPhrase, TrackAnalysis } from '../track/index.js';
import { BARS_IN_GROUP, barRange, clock, countLabel } from '../units/index.js';
import { onTheOne } from '../wording/index.js';
import type { Display } from './ready.js';
import { htmlTable, textTable, type TableCell } from './markup.js';

const HEAD: readonly TableCell[] = [
  { text: 'phrase', number: true },
  { text: 'bars' },
  { text: 'starts', number: true },
  { text: 'length' },
  { text: 'count' },
  { text: 'on phrase one' },
];

/**
 * The track phrase by phrase: where each starts, how long it is in bars and beats, how it is counted, and what happens
 * on its one. Phrases that leave the track's pattern are set bold.
 * @experimental
 */
export function countTable(analysis: TrackAnalysis): Display {
  const caption = `${analysis.phrases.length} phrases; the usual one has ${analysis.phraseBars} bars.`;
  const rows = analysis.phrases.map((phrase) => rowOf(analysis, phrase));
  return {
    bundle: { 'text/html': htmlTable(caption, HEAD, rows), 'text/plain': textTable(caption, HEAD, rows) },
  };
}

function rowOf(analysis: TrackAnalysis, phrase: AnalysisPhrase): TableCell[] {
  const inside = analysis.bars.filter((bar) => bar.number >= phrase.startBar && bar.number <= phrase.endBar);
  const beats = inside.reduce((sum, bar) => sum + bar.beats, 0);
  const section = analysis.sections.find((s) => s.startBar === phrase.startBar);
  const events = analysis.events.filter((event) => event.bar === phrase.startBar && event.beat === 1);
  const strong = !phrase.regular;
  // Bars before the first one lead in: nobody counts a phrase from there.
  const first = inside.find((bar) => bar.number >= 1) ?? inside[0];
  return [
    { text: String(phrase.number), number: true, strong },
    { text: barRange(first?.number ?? phrase.startBar, phrase.endBar), strong },
    { text: clock(first?.start ?? phrase.start), number: true, strong },
    { text: `${phrase.bars} ${phrase.bars === 1 ? 'bar' : 'bars'}, ${beats} beats`, strong },
    { text: groupsOf(phrase.bars) },
    { text: onTheOne(section?.function ?? null, events), wrap: true },
  ];
}

/** A length in groups and bars, as it is counted: "4 × 4", "4 × 4 + 2". */
export function groupsOf(bars: number): string {
  const groups = Math.floor(bars / BARS_IN_GROUP);
  const rest = bars % BARS_IN_GROUP;
  if (groups === 0) return String(rest);
  return `${groups} × ${BARS_IN_GROUP}${rest > 0 ? ` + ${rest}` : ''}`;
}

/**
 * Every beat of some bars with its count: bar of the group, beat of the bar, and the time. A pick-up bar ends on the
 * last beat of the bar and has no one.
 *
 * @experimental
 * @param fromBar number of the first bar; 1 by default
 * @param bars how many bars; 8 by default
 */
export function beatTable(analysis: TrackAnalysis, fromBar = 1, bars = 8): Display {
  const shown = analysis.bars.filter(({ number }) => number >= fromBar && number < fromBar + bars);
  let most = Math.max(0, ...shown.map((bar) => bar.beats));
  const { beatsPerBar } = analysis.metre;
  if (shown.some(isPickUp)) most = Math.max(most, beatsPerBar);
  const beatNumbers = Array.from({ length: most }, (_, i) => i + 1);
  const head: TableCell[] = [{ text: 'bar', number: true }, ...beatNumbers.map((n) => ({ text: `beat ${n}` }))];
  let at = analysis.bars.filter(({ number }) => number < fromBar).reduce((sum, bar) => sum + bar.beats, 0);
  const rows = shown.map((bar) => {
    const first = isPickUp(bar) ? Math.max(beatsPerBar - bar.beats, 0) + 1 : 1;
    const cells = beatNumbers.map((n) => {
      const i = n - first;
      const time = i >= 0 && i < bar.beats ? analysis.beats[at + i] : undefined;
      const text = time === undefined ? '' : `${countLabel(bar.groupBar, n)}  (${clock(time, 2)})`;
      return { text, strong: n === 1 && bar.groupBar === 1 };
    });
    at += bar.beats;
    return [{ text: String(bar.number), number: true }, ...cells];
  });
  const caption = 'Counted aloud: bar of the group · beat of the bar. Bold: group one.';
  return { bundle: { 'text/html': htmlTable(caption, head, rows), 'text/plain': textTable(caption, head, rows) } };
}

/** Whether a bar lies before the first whole one. */
function isPickUp(bar: AnalysisBar): boolean {
  return bar.number < 1;
}
