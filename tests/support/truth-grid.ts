import type { Grid } from '../../src/rhythm/index.js';

/** Beats and the first beat of every bar, as known truth gives them. */
export interface BeatTruth {
  readonly bpm: number;
  readonly beatsPerBar: number;
  readonly beats: readonly number[];
  readonly downbeats: readonly number[];
}

/** A grid that is simply true, so that the form can be judged apart from the rhythm stage. */
export function gridFromTruth({ bpm, beatsPerBar, beats, downbeats }: BeatTruth): Grid {
  const first = downbeats.map((d) => beats.findIndex((b) => Math.abs(b - d) < 0.01)).filter((i) => i >= 0);
  const last = beats[beats.length - 1] + (beats[beats.length - 1] - beats[beats.length - 2]);
  const bars = first.map((firstBeat, i) => {
    const next = i + 1 < first.length ? first[i + 1] : beats.length;
    return {
      number: i + 1,
      start: beats[firstBeat],
      end: next < beats.length ? beats[next] : last,
      beats: next - firstBeat,
      firstBeat,
    };
  });
  return {
    tempo: {
      bpm,
      confidence: 1,
      alternatives: [{ bpm, weight: 1 }],
      steadiness: 'constant',
      pieces: [{ start: beats[0], end: last, bpm }],
    },
    metre: { beatsPerBar, confidence: 1, alternatives: [{ beatsPerBar, weight: 1 }] },
    beats,
    bars,
    downbeat: { confidence: 1, alternatives: [{ shiftBeats: 0, weight: 1 }] },
    beatPhase: { confidence: 1, alternatives: [{ shift: 0, weight: 1 }] },
    swing: null,
    irregularities: [],
  };
}
