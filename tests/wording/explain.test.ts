import { describe, expect, it } from 'vitest';
import type { Irregularity } from '../../src/form/index.js';
import { explain, type ExplainContext } from '../../src/wording/index.js';

const BAR = (4 * 60) / 124;
const context: ExplainContext = {
  grid: {
    metre: { beatsPerBar: 4 },
    bars: Array.from({ length: 80 }, (_, i) => ({ number: i + 1, start: i * BAR, beats: i === 39 ? 2 : 4 })),
  },
  form: {
    phraseBars: 16,
    sections: [
      { startBar: 1, endBar: 40 },
      { startBar: 41, endBar: 58 },
      { startBar: 59, endBar: 80 },
    ],
    events: [{ time: 31.5 * BAR, layer: 'bass', change: 'enters' }],
  },
};
const length = {
  bar: 57,
  time: 56 * BAR,
  startBar: 41,
  endBar: 58,
  bars: 18,
  usualBars: 16,
  function: 'build-up',
  nextStart: 112.3,
  confidence: 0.9,
  evidence: { onsetRatio: 2, levelDecibels: 1 },
} as const;
const common = { bar: 33, time: 61.9, confidence: 0.9, evidence: {} } as const;

describe('sentences for irregularities', () => {
  const cases: [Irregularity, string][] = [
    [
      { ...length, kind: 'added-bars' },
      "The build-up of bars 41–58 is two bars longer than this track's 16: a roll fills bars 57 and 58; the next phrase starts at bar 59, count again from 1:52.3.",
    ],
    [
      {
        ...length,
        kind: 'added-bars',
        bar: 17,
        startBar: 9,
        endBar: 17,
        bars: 9,
        usualBars: 8,
        function: 'main',
        nextStart: 33,
        evidence: {},
      },
      'The phrase of bars 9–17, in the main part, is one bar longer than a regular 8: bar 17 is extra; the next phrase starts at bar 18, count again from 0:33.0.',
    ],
    [
      { ...length, kind: 'added-bars', evidence: { onsetRatio: 1, levelDecibels: 0 } },
      "The build-up of bars 41–58 is two bars longer than this track's 16: bars 57 and 58 go on as before; the next phrase starts at bar 59, count again from 1:52.3.",
    ],
    [
      { ...length, kind: 'dropped-bars', startBar: 59, endBar: 71, bars: 13, function: 'outro', nextStart: 137.4 },
      "The phrase of bars 59–71, in the outro, is three bars shorter than this track's 16: three bars are missing at its end; the next phrase starts at bar 72, count again from 2:17.4.",
    ],
    [
      { ...length, kind: 'odd-phrase', startBar: 59, endBar: 63, bars: 5, function: 'drop', nextStart: 121.9 },
      "The phrase of bars 59–63, in the drop, has five bars where this track's phrases have 16, and does not fill its groups of four; the next phrase starts at bar 64, count again from 2:01.9.",
    ],
    [
      { ...common, kind: 'pick-up', startTime: 31.5 * BAR, beats: 2 },
      'The bass comes in two beats before the one of bar 33, at 1:01.0: a pick-up; the phrase itself starts on the one, at 1:01.9.',
    ],
    [
      { ...common, kind: 'dropped-beats', bar: 40, time: 39 * BAR, beats: 2 },
      'Bar 40, at 1:15.5, has only two beats instead of four, two too few; bar 41 follows at 1:17.4, count again from there.',
    ],
    [
      { ...common, kind: 'added-beats', beats: 1 },
      'Bar 33, at 1:01.9, has five beats instead of four, one too many; bar 34 follows at 1:03.9, count again from there.',
    ],
    [
      { ...common, kind: 'tempo-change', fromBpm: 124, toBpm: 130.004 },
      'From bar 33 on, at 1:01.9, the tempo is 130 BPM instead of 124 BPM.',
    ],
    [
      { ...common, kind: 'drift', lowestBpm: 117.25, highestBpm: 121.8 },
      'The tempo is not held by a clock: it wanders between 117.25 BPM and 121.8 BPM, so follow the beats and not one tempo.',
    ],
    [
      { ...common, kind: 'half-time', endBar: 48, countedBpm: 174, feltBpm: 87 },
      'Bars 33–48, from 1:01.9, feel half as fast: counted at 174 BPM, felt at 87 BPM.',
    ],
    [
      { ...common, kind: 'beatless-passage', bar: 1, time: 0, endBar: 16 },
      'Bars 1–16, from 0:00.0, have no beat: the count goes on underneath, and the beat comes in at bar 17, at 0:31.0.',
    ],
    [
      { ...common, kind: 'beatless-passage', bar: 73, time: 72 * BAR, endBar: 80 },
      'Bars 73–80, from 2:19.4, have no beat: it lasts to the end.',
    ],
  ];
  it.each(cases)('$0.kind', (irregularity, sentence) => {
    expect(explain(irregularity, context)).toBe(sentence);
  });
});
