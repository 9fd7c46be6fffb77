import type { TrackAnalysis } from '../track/index.js';
import type { SpecPart } from './spec.js';
import { table } from './table.js';
import { COLOURS, SIZES } from './theme.js';
import type { Frame } from './timechart.js';

/** A generous width of a letter at the label size; names that do not fit their section are left out. */
const LETTER_PIXELS = 6.4;

/** The functions of the sections as text, each at the middle of what is seen of its section. @param y their height */
export function sectionStrip(analysis: TrackAnalysis, frame: Frame, y: number): SpecPart[] {
  const perSecond = frame.width / (frame.to - frame.from);
  const seen = analysis.sections
    .map((s) => ({ name: s.function, from: Math.max(s.start, frame.from), to: Math.min(s.end, frame.to) }))
    .filter(({ name, from, to }) => (to - from) * perSecond >= name.length * LETTER_PIXELS + 6);
  if (seen.length === 0) return [];
  const data = table({ t: seen.map(({ from, to }) => (from + to) / 2), name: seen.map(({ name }) => name) });
  const text = (look: SpecPart): SpecPart => ({
    data,
    mark: { type: 'text', fontSize: SIZES.label, fontWeight: 'bold', baseline: 'middle', ...look },
    encoding: { text: { field: 'name' }, y: { datum: y } },
  });
  // The paper-coloured outline keeps grid lines out of the letters.
  return [text({ stroke: COLOURS.paper, strokeWidth: 5, aria: false }), text({ color: COLOURS.ink, aria: false })];
}
