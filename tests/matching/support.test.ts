import { describe, expect, it } from 'vitest';
import { countOf } from '../../src/matching/count.js';
import { matchTracks } from '../../src/matching/index.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { sampleAnalysis, type SamplePart } from '../support/sample-analysis.js';

const EVEN: readonly SamplePart[] = [
  { function: 'intro', phrases: [16, 16], layers: ['kick', 'percussion'] },
  { function: 'main', phrases: [16, 16], layers: ['kick', 'bass', 'percussion', 'harmony'] },
  { function: 'breakdown', phrases: [16], layers: ['harmony'] },
  { function: 'drop', phrases: [16, 16], layers: ['kick', 'bass', 'percussion', 'harmony'] },
  { function: 'outro', phrases: [16], layers: ['kick', 'percussion'] },
];
/** Two bars too many somewhere in the intro: nothing heard tells where. */
const SURPLUS: readonly SamplePart[] = [{ ...EVEN[0], phrases: [18, 16] }, ...EVEN.slice(1)];

const supportAt = (analysis: TrackAnalysis, number: number): number => {
  const { bars, support } = countOf(analysis);
  return support[bars.findIndex((bar) => bar.number === number)];
};

describe('what bears out a phrase start', () => {
  it('is most where a section begins and layers change', () => {
    expect(supportAt(sampleAnalysis(EVEN), 33)).toBeGreaterThan(0.85);
  });

  it('is less for a one between, and little where the bars to the next sure ones make no whole phrases', () => {
    expect(supportAt(sampleAnalysis(EVEN), 17)).toBeGreaterThan(0.6);
    expect(supportAt(sampleAnalysis(SURPLUS), 19)).toBeLessThan(0.4);
  });

  it('is less where the change is heard a bar beside the one', () => {
    const even = sampleAnalysis(EVEN);
    const events = even.events.map((event) => (event.bar === 33 ? { ...event, bar: 32 } : event));
    expect(supportAt({ ...even, events }, 33)).toBeLessThan(0.8 * supportAt(even, 33));
  });

  it('is less up to the first sure boundary of a record that sets in with its drums on less than a bar', () => {
    const even = sampleAnalysis(EVEN);
    const sections = even.sections.map((section) => ({ ...section, confidence: 0.95 }));
    const bars = even.bars.map((bar, i) => (i === 0 ? { ...bar, beats: 3 } : bar));
    expect(supportAt({ ...even, bars, sections }, 17)).toBeLessThan(0.5 * supportAt(even, 17));
    expect(supportAt({ ...even, bars, sections }, 49)).toBeGreaterThan(0.8);
  });

  it('keeps the best plan from starting B on a one that nothing bears out', () => {
    const { plans } = matchTracks(sampleAnalysis(EVEN), sampleAnalysis(SURPLUS));
    expect(plans[0].start.b.bar).not.toBe(19);
  });
});
