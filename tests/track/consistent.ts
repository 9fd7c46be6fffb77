import { expect } from 'vitest';
import { trackAnalysisSchema, type TrackAnalysis } from '../../src/track/index.js';

/** Whether everything in an analysis fits together: beats, bars, groups, phrases, sections, events and what is said of them. */
export function expectConsistent(analysis: TrackAnalysis): void {
  expect(trackAnalysisSchema.parse(analysis)).toEqual(analysis);
  const { beats, bars, phrases, sections, events, layers } = analysis;
  beats.slice(1).forEach((t, i) => expect(t).toBeGreaterThan(beats[i]));
  let beat = 0;
  bars.forEach((bar, i) => {
    expect(bar.start).toBe(beats[beat]);
    expect(bar.number).toBe(bars[0].number + i);
    beat += bar.beats;
  });
  expect(beat).toBe(beats.length);
  expect(phrases[0].startBar).toBe(bars[0].number);
  expect(phrases.at(-1)!.endBar).toBe(bars.at(-1)!.number);
  phrases.forEach((p, i) => {
    expect(p.bars).toBe(p.endBar - p.startBar + 1);
    if (i > 0) expect(p.startBar).toBe(phrases[i - 1].endBar + 1);
    expect(bars.find((b) => b.number === p.startBar)).toMatchObject({ start: p.start, groupBar: 1, phraseBar: 1 });
  });
  const starts = new Set(phrases.map((p) => p.startBar));
  sections.forEach((s, i) => {
    expect(starts.has(s.startBar)).toBe(true);
    expect(s.startBar).toBe(i === 0 ? bars[0].number : sections[i - 1].endBar + 1);
  });
  expect(sections.at(-1)!.endBar).toBe(bars.at(-1)!.number);
  for (const e of events) {
    const bar = bars.find((b) => b.number === e.bar)!;
    expect(e.beat).toBeGreaterThanOrEqual(1);
    expect(e.beat).toBeLessThanOrEqual(bar.beats);
    expect(beats.some((t) => Math.abs(t - e.time) < 1e-3)).toBe(true);
  }
  for (const presence of Object.values(layers)) expect(presence).toHaveLength(bars.length);
  const numbers = new Set(bars.map((b) => b.number));
  for (const i of analysis.irregularities) expect(numbers.has(i.bar)).toBe(true);
}
