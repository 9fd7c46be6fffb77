import { describe, expect, it } from 'vitest';
import { hearFrontEnd } from '../../src/rhythm/heard.js';
import { tempoCandidates } from '../../src/rhythm/tempo-candidates.js';
import { hear, playBand, steady } from './drums.js';

describe('tempos that are weighed', () => {
  const { onsets } = hearFrontEnd(hear(playBand(steady(133, 128))));
  const tempos = (fits: readonly { frequency: number }[]) => fits.map(({ frequency }) => 60 * frequency);
  const near = (bpm: number) => (found: number) => Math.abs(found / bpm - 1) < 0.005;

  // derived: half of 133 is 66.5, two thirds of it 88.67
  it('have a pulse of their own: two thirds of a straight beat has none, though every third beat meets it', () => {
    const { fits } = tempoCandidates(onsets, {});
    const found = tempos(fits);
    expect(found.some(near(133))).toBe(true);
    expect(found.some(near(66.5))).toBe(true);
    expect(found.some(near(88.67))).toBe(false);
    const strongest = Math.max(...fits.map(({ strength }) => strength));
    for (const { strength } of fits) expect(strength / strongest).toBeGreaterThan(0.1);
  });

  it('are told ones too, whatever is heard of them', () => {
    const found = tempos(tempoCandidates(onsets, { tempo: 88.67 }).fits);
    expect(found.some((bpm) => Math.abs(bpm / 88.67 - 1) < 0.013)).toBe(true);
  });
});
