import { describe, expect, it } from 'vitest';
import { doubtQuestion, isOctave, spokenTempo, tempoDoubt, tempoReading } from '../../src/wording/index.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';

const withTempo = (
  alternatives: TrackAnalysis['tempo']['alternatives'],
  irregularities: TrackAnalysis['irregularities'] = [],
) =>
  sampleAnalysis(undefined, {
    bpm: alternatives[0].bpm,
    irregularities,
    overrides: {
      tempo: { bpm: alternatives[0].bpm, confidence: 0.5, alternatives, steadiness: 'constant', pieces: [] },
    },
  });
const halfTime = (endBar: number): TrackAnalysis['irregularities'] => [
  {
    kind: 'half-time',
    bar: 1,
    time: 0,
    explanation: '',
    confidence: 0.8,
    parameters: { endBar, countedBpm: 174, feltBpm: 87 },
    evidence: {},
  },
];

describe('the question "87 or 174?"', () => {
  it('is asked where half the tempo has evidence close to that of the chosen one', () => {
    const track = withTempo([
      { bpm: 174, weight: 0.6 },
      { bpm: 87, weight: 0.35 },
    ]);
    expect(tempoDoubt(track)).toEqual([
      { bpm: 174, weight: 0.6 },
      { bpm: 87, weight: 0.35 },
    ]);
    expect(tempoReading(track)).toBe('87 or 174?');
    expect(tempoReading(track, 'de')).toBe('87 oder 174?');
  });

  it('is asked for any two tempos, not for octaves alone', () => {
    const track = withTempo([
      { bpm: 120, weight: 0.5 },
      { bpm: 90, weight: 0.5 },
    ]);
    expect(doubtQuestion(tempoDoubt(track)!)).toBe('90 or 120?');
  });

  it('is not asked where the rival has little evidence', () => {
    const track = withTempo([
      { bpm: 173.996, weight: 0.9 },
      { bpm: 87, weight: 0.1 },
    ]);
    expect(tempoDoubt(track)).toBeNull();
    expect(tempoReading(track)).toBe('174');
  });

  it('is asked where a good part of the track is felt at half the tempo that is counted', () => {
    expect(tempoDoubt(withTempo([{ bpm: 174, weight: 1 }], halfTime(80)))).toEqual([
      { bpm: 174, weight: 1 },
      { bpm: 87, weight: null },
    ]);
    expect(tempoDoubt(withTempo([{ bpm: 174, weight: 1 }], halfTime(12)))).toBeNull();
  });

  it('is settled once somebody has said the tempo', () => {
    const track = withTempo(
      [
        { bpm: 174, weight: 0.6 },
        { bpm: 87, weight: 0.4 },
      ],
      halfTime(80),
    );
    expect(tempoDoubt({ ...track, corrections: [{ kind: 'tempo' }] })).toBeNull();
  });

  it('takes 86.9 and 174 for octaves and 84 and 174 for none', () => {
    const pairs = [isOctave(86.9, 174), isOctave(174, 86.9), isOctave(84, 174), isOctave(120, 120)];
    expect(pairs).toEqual([true, true, false, false]);
  });

  it('says tempos as people do', () => {
    expect([spokenTempo(174.003), spokenTempo(86.96), spokenTempo(87.25), spokenTempo(87.25, 'de')]).toEqual([
      '174',
      '87',
      '87.3',
      '87,3',
    ]);
  });
});
