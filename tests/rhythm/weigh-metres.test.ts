import { describe, expect, it } from 'vitest';
import type { BeatFeatures } from '../../src/rhythm/beat-features.js';
import { weighMetres } from '../../src/rhythm/metre.js';

/** Beats whose strokes come back after so many beats. */
function strokes(period: number, count = 96, accent = 4): BeatFeatures {
  const curve = Float64Array.from({ length: count }, (_, b) => (b % period === 0 ? accent : 1));
  const none = new Float64Array(count);
  const rest = { count, spectrum: none, columns: 1, lowColumns: 1, chroma: new Float64Array(12 * count) };
  return { ...rest, onBeat: [curve], offBeat: [none], sixteenths: [] };
}

describe('the weights of the metres', () => {
  const flat = () => 0;

  it('follow what comes back after so many beats', () => {
    expect(weighMetres(strokes(4), undefined, flat)[0].beatsPerBar).toBe(4);
    expect(weighMetres(strokes(3), undefined, flat)[0].beatsPerBar).toBe(3);
    expect(weighMetres(strokes(7), undefined, flat)[0].beatsPerBar).toBe(7);
  });

  it('are settled by the clearer ones where two are close', () => {
    // Strokes that are all alike: four by habit, three 4 nats behind.
    const alike = strokes(1);
    const asked: number[] = [];
    const clear = (m: number) => {
      asked.push(m);
      return m === 3 ? 20 : 5;
    };
    expect(weighMetres(alike, undefined, flat)[0].beatsPerBar).toBe(4);
    expect(weighMetres(alike, undefined, clear)[0].beatsPerBar).toBe(3);
    // Seven is 6 nats behind four from the start.
    expect(asked.sort()).toEqual([3, 4, 5]);
  });

  it('cost no look at the ones where nothing is close, or a person has said it', () => {
    const never = () => expect.fail('the ones were looked at');
    expect(weighMetres(strokes(3), undefined, never)[0].beatsPerBar).toBe(3);
    expect(weighMetres(strokes(1), 5, never)).toEqual([{ beatsPerBar: 5, weight: 1 }]);
  });
});
