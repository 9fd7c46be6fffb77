import { describe, expect, it } from 'vitest';
import { doubtQuestion, isOctave, tempoCommand, tempoDoubt } from '../../src/player/index.js';
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

describe('tempoDoubt', () => {
  it('sees a doubt where half the tempo has evidence close to that of the chosen one', () => {
    const doubt = tempoDoubt(
      withTempo([
        { bpm: 174, weight: 0.6 },
        { bpm: 87, weight: 0.35 },
      ]),
    )!;
    expect(doubt).toEqual([
      { bpm: 174, weight: 0.6 },
      { bpm: 87, weight: 0.35 },
    ]);
    expect(doubtQuestion(doubt)).toBe('87 or 174?');
  });

  it('sees none where the other octave has little evidence, or the rival is no octave', () => {
    expect(
      tempoDoubt(
        withTempo([
          { bpm: 174, weight: 0.9 },
          { bpm: 87, weight: 0.1 },
        ]),
      ),
    ).toBeNull();
    expect(
      tempoDoubt(
        withTempo([
          { bpm: 120, weight: 0.5 },
          { bpm: 90, weight: 0.5 },
        ]),
      ),
    ).toBeNull();
  });

  it('sees one where a good part of the track is felt at half the tempo that is counted', () => {
    const half = (endBar: number): TrackAnalysis['irregularities'] => [
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
    expect(tempoDoubt(withTempo([{ bpm: 174, weight: 1 }], half(80)))).toEqual([
      { bpm: 174, weight: 1 },
      { bpm: 87, weight: null },
    ]);
    expect(tempoDoubt(withTempo([{ bpm: 174, weight: 1 }], half(12)))).toBeNull();
  });

  it('takes 86.9 and 174 for octaves and 84 and 174 for none', () => {
    expect([isOctave(86.9, 174), isOctave(174, 86.9), isOctave(84, 174), isOctave(120, 120)]).toEqual([
      true,
      true,
      false,
      false,
    ]);
  });
});

describe('tempoCommand', () => {
  it('gives a command that a shell takes as it is', () => {
    expect(tempoCommand('crate/under-the-pier.mp3', 87.004)).toBe(
      'barwise analyse crate/under-the-pier.mp3 --tempo 87',
    );
    expect(tempoCommand("gull's cry.wav", 87.5)).toBe(`barwise analyse 'gull'\\''s cry.wav' --tempo 87.5`);
    expect(tempoCommand('$(x);.wav', 87)).toBe(`barwise analyse '$(x);.wav' --tempo 87`);
    expect(tempoCommand('-rf.wav', 87)).toBe(`barwise analyse ./-rf.wav --tempo 87`);
  });
});
