import { describe, expect, it } from 'vitest';
import type { BeatFeatures } from '../../src/rhythm/beat-features.js';
import type { BeatRows } from '../../src/rhythm/beat-rows.js';
import { DEPARTURE_NAMES, departures } from '../../src/rhythm/departures.js';

/** Beats of a bar described by one number each. */
const BAR = [9, 1, 4, 1];

/** A track of whose beats only the description is heard. */
function described(beats: readonly number[]): { features: BeatFeatures; rows: BeatRows } {
  const none = new Float64Array(beats.length);
  return {
    features: {
      count: beats.length,
      spectrum: none,
      columns: 1,
      lowColumns: 1,
      chroma: new Float64Array(12 * beats.length),
      onBeat: [none],
      offBeat: [none],
      sixteenths: [none, none],
    },
    rows: { values: Float64Array.from(beats), count: beats.length, stride: 1, width: 1 },
  };
}

function curvesOf(beats: readonly number[], beatsPerBar: number): Record<string, number[]> {
  const { features, rows } = described(beats);
  const curves = departures(features, rows, beatsPerBar);
  expect(curves).toHaveLength(DEPARTURE_NAMES.length);
  return Object.fromEntries(DEPARTURE_NAMES.map((name, i) => [name, Array.from(curves[i])]));
}

/** Where a curve is not 0. */
const places = (curve: readonly number[]) => curve.flatMap((v, b) => (v > 0 ? [b] : []));

describe('departures from the bar before (worked out by hand)', () => {
  const bars = (count: number, bar: readonly number[]) => Array.from({ length: count }, () => bar).flat();

  it('are none while every bar is like the one before', () => {
    const curves = curvesOf(bars(8, BAR), 4);
    for (const back of ['1 bars before', '2 bars before', '4 bars before']) {
      expect(places(curves[`beat departs from ${back}`])).toEqual([]);
      expect(places(curves[`beat returns to ${back}`])).toEqual([]);
    }
  });

  it('rise on the one of a new bar that stays, and fall a bar later', () => {
    const curves = curvesOf(
      [
        ...bars(4, BAR),
        ...bars(
          4,
          BAR.map((v) => v + 3),
        ),
      ],
      4,
    );
    expect(places(curves['beat departs from 1 bars before'])).toEqual([16]);
    expect(places(curves['beat returns to 1 bars before'])).toEqual([20]);
    expect(places(curves['beat departs from 2 bars before'])).toEqual([16]);
    expect(places(curves['beat returns to 2 bars before'])).toEqual([24]);
    expect(curves['beat departs from 1 bars before'][16]).toBeCloseTo(3, 12);
  });

  it('rise where a fill begins and fall on the one behind it', () => {
    const filled = [...bars(4, BAR), 9, 1, 7, 4, ...bars(4, BAR)];
    const curves = curvesOf(filled, 4);
    // The beats of the fill and those a bar later, which are compared with them.
    expect(places(curves['beat departs from 1 bars before'])).toEqual([18, 22]);
    expect(places(curves['beat returns to 1 bars before'])).toEqual([20, 24]);
  });

  it('take bars of three as bars of three', () => {
    const bar = BAR.slice(0, 3);
    const curves = curvesOf(
      [
        ...bars(4, bar),
        ...bars(
          4,
          bar.map((v) => v + 3),
        ),
      ],
      3,
    );
    expect(places(curves['beat departs from 1 bars before'])).toEqual([12]);
    expect(places(curves['beat returns to 1 bars before'])).toEqual([15]);
  });

  it('are none in a track too short to look back', () => {
    const curves = curvesOf(BAR, 4);
    expect(places(curves['beat departs from 1 bars before'])).toEqual([]);
    expect(curves['low spectrum departs from 1 beats before']).toHaveLength(4);
  });
});
