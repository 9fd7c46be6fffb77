import { describe, expect, it } from 'vitest';
import { withTrack } from '../../src/form/track-cues.js';

/** Bars of two cues. */
const cuesOf = (bars: readonly (readonly [number, number])[]) => ({
  values: Float32Array.from(bars.flat()),
  columns: 2,
  names: ['level', 'strokes'],
});
const rowOf = ({ values, columns }: { values: Float32Array; columns: number }, bar: number) =>
  Array.from(values.subarray(bar * columns, (bar + 1) * columns));

describe('cues against the track (worked out by hand)', () => {
  // Eleven bars, so that the 90th percentile is the tenth smallest value: −10 of the levels, 2 of the strokes.
  const levels = [-50, -50, -10, -50, -12, -11, -10, -10, -10, -9, -50];
  const against = withTrack(cuesOf(levels.map((level, b) => [level, b === 4 ? 0 : 2])));

  it('are the cue, how far it lies under the full, and the same with the bars beside it', () => {
    expect(against.columns).toBe(6);
    expect(against.names).toHaveLength(6);
    // The middle one of −10, −50, −12 is −12; of 2, 2, 0 it is 2.
    expect(rowOf(against, 3)).toEqual([-50, 2, -40, 0, -2, 0]);
    expect(rowOf(against, 4)).toEqual([-12, 0, -2, -2, -2, 0]);
  });

  it('take the ends of a track for their own neighbours', () => {
    expect(rowOf(against, 0)).toEqual([-50, 2, -40, 0, -40, 0]);
    expect(rowOf(against, 10)).toEqual([-50, 2, -40, 0, -40, 0]);
    expect(rowOf(withTrack(cuesOf([[-20, 1]])), 0)).toEqual([-20, 1, 0, 0, 0, 0]);
  });

  it('do not change with how loud a whole track is told', () => {
    const louder = withTrack(cuesOf(levels.map((level, b) => [level + 6, b === 4 ? 0 : 2])));
    for (let b = 0; b < levels.length; b++) expect(rowOf(louder, b).slice(2)).toEqual(rowOf(against, b).slice(2));
  });
});
