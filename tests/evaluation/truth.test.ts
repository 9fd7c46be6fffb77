import { describe, expect, it } from 'vitest';
import {
  bootstrapMean,
  cutTruth,
  estimateOfBeats,
  groupsOf,
  readTruth,
  scoreTrack,
  type Estimate,
} from '../../src/evaluation/index.js';

/** 120 BPM, 4/4, 40 bars: sections of 8, 16, 10 and 6 bars. */
function song() {
  const beats = Array.from({ length: 160 }, (_, i) => i * 0.5);
  const starts = [0, 16, 48, 68, 80];
  return {
    id: 'invented-first-song',
    group: 'dance',
    bpm: 120,
    duration_s: 82,
    beats,
    downbeats: beats.filter((_, i) => i % 4 === 0),
    sections: starts.slice(1).map((end, i) => ({ start: starts[i], end, label: 'ABCA'[i] })),
  };
}

function perfect(truth: ReturnType<typeof readTruth>): Estimate {
  return {
    bpm: truth.bpm,
    beats: truth.beats,
    downbeats: truth.downbeats,
    groupStarts: truth.groupStarts,
    phraseStarts: null,
    sections: truth.sections,
    key: null,
  };
}

describe('the truth of a song', () => {
  it('counts groups of four bars from every section, and knows none where the next one is off that count', () => {
    const { groupStarts, groupsUnknown } = readTruth(song());
    // 8 bars: 2 groups; 16: 4; 10: only the first is sure, for the next section falls off its count; 6: 2
    expect(groupStarts).toEqual([0, 8, 16, 24, 32, 40, 48, 68, 76]);
    expect(groupsUnknown).toEqual([{ start: 49, end: 67 }]);
  });

  it('does not know the groups of a song with one section', () => {
    expect(groupsOf([0, 2, 4, 6], [0])).toEqual({ starts: [], unknown: [] });
  });

  it('does not judge groups where it does not know them', () => {
    const truth = readTruth(song());
    const inside = scoreTrack(truth, {
      ...perfect(truth),
      groupStarts: [...truth.groupStarts, 56, 64].sort((a, b) => a - b),
    });
    expect(inside.groupF).toBe(1);
    const outside = scoreTrack(truth, {
      ...perfect(truth),
      groupStarts: [...truth.groupStarts, 4].sort((a, b) => a - b),
    });
    expect(outside.groupF).toBeLessThan(1);
  });

  it('reads the beats of a bar from the beats between downbeats', () => {
    expect(readTruth(song()).beatsPerBar).toBe(4);
    const waltz = { ...song(), downbeats: song().beats.filter((_, i) => i % 3 === 0) };
    expect(readTruth(waltz).beatsPerBar).toBe(3);
  });

  it('takes the key of the notes only when it is clear', () => {
    const key = (margin: number) => readTruth({ ...song(), key_of_notes: { tonic: 'A', mode: 'minor', margin } }).key;
    expect(key(0.2)).toEqual({ tonic: 'A', mode: 'minor' });
    expect(key(0.02)).toBeNull();
    expect(readTruth(song()).key).toBeNull();
  });

  it('says which field is missing', () => {
    expect(() => readTruth({ ...song(), beats: undefined })).toThrow(/beats/);
  });

  it('moves along when the start is cut off', () => {
    const cut = cutTruth(readTruth(song()), 3.3);
    expect(cut.beats[0]).toBeCloseTo(0.2, 9);
    expect(cut.downbeats[0]).toBeCloseTo(0.7, 9);
    expect(cut.sections[0]).toMatchObject({ start: 0, label: 'A' });
    expect(cut.sections[0].end).toBeCloseTo(12.7, 9);
    expect(cut.groupStarts[0]).toBeCloseTo(4.7, 9);
    expect(cut.duration).toBeCloseTo(78.7, 9);
  });
});

describe('the scores of a track', () => {
  it('are perfect for the truth itself', () => {
    const truth = readTruth(song());
    const s = scoreTrack(truth, perfect(truth));
    for (const m of [
      'tempo1',
      'tempo2',
      'beatF',
      'cmlt',
      'downbeatF',
      'groupF',
      'boundaryBarF',
      'boundary05F',
      'pairwiseF',
    ] as const)
      expect(s[m]).toBe(1);
    expect(s.beatMedianMs).toBe(0);
    expect(s.phraseF).toBeNull();
    expect(s.key).toBeNull();
  });

  it('see a grid that is one beat, and one that is one bar, out', () => {
    const truth = readTruth(song());
    const oneBeat = scoreTrack(truth, { ...perfect(truth), downbeats: truth.downbeats.map((t) => t + 0.5) });
    expect(oneBeat.downbeatF).toBe(0);
    const oneBar = scoreTrack(truth, { ...perfect(truth), groupStarts: truth.groupStarts.map((t) => t + 2) });
    expect(oneBar.groupF).toBeLessThan(0.2);
    expect(oneBar.downbeatF).toBe(1);
  });

  it('leave out what a beat tracker does not say', () => {
    const s = scoreTrack(readTruth(song()), estimateOfBeats(song().beats));
    expect(s.tempo1).toBe(1);
    expect(s.beatF).toBe(1);
    expect([s.downbeatF, s.groupF, s.boundary05F]).toEqual([null, null, null]);
    const keyed = readTruth({ ...song(), key_of_notes: { tonic: 'C', mode: 'major', margin: 1 } });
    expect(scoreTrack(keyed, estimateOfBeats(song().beats)).key).toBeNull();
    expect(scoreTrack(keyed, { ...estimateOfBeats(song().beats), key: null }).key).toBe(0);
    expect(scoreTrack(readTruth(song()), estimateOfBeats([])).tempo1).toBe(0);
  });
});

describe('bootstrap intervals', () => {
  it('hold the mean, are narrower for more values and the same for the same seed', () => {
    const values = Array.from({ length: 100 }, (_, i) => (i % 10) / 10);
    const few = bootstrapMean(values.slice(0, 20));
    const many = bootstrapMean(values);
    expect(many.mean).toBeCloseTo(0.45, 9);
    expect(many.low).toBeLessThan(many.mean);
    expect(many.high).toBeGreaterThan(many.mean);
    expect(many.high - many.low).toBeLessThan(few.high - few.low);
    expect(bootstrapMean(values)).toEqual(many);
    expect(bootstrapMean([0.7])).toMatchObject({ mean: 0.7, low: 0.7, high: 0.7 });
    expect(() => bootstrapMean([])).toThrow(RangeError);
  });

  it('is about 1.96 standard errors wide on either side', () => {
    // Normal approximation of a 95 % interval: mean ± 1.96 s/√n
    const values = Array.from({ length: 400 }, (_, i) => i / 399);
    const { mean, low, high } = bootstrapMean(values);
    const error = Math.sqrt(1 / 12) / 20;
    expect(mean - low).toBeCloseTo(1.96 * error, 2);
    expect(high - mean).toBeCloseTo(1.96 * error, 2);
  });
});
