import { describe, expect, it } from 'vitest';
import { constraintsOf, contradict, correctionWords, type Correction } from '../../../src/track/index.js';

const phrase = (time: number, starts = true): Correction => ({ kind: 'phrase', time, starts });
const section = (time: number, f: 'drop' | 'main' | null = null, starts = true): Correction => ({
  kind: 'section',
  time,
  starts,
  function: f,
});
const bass = (time: number, happens = true, change: 'enters' | 'leaves' = 'enters'): Correction => ({
  kind: 'event',
  time,
  layer: 'bass',
  change,
  happens,
});
const first = (time: number): Correction => ({ kind: 'first-one', time });
const tempo = (bpm: number): Correction => ({ kind: 'tempo', bpm });

describe('two corrections contradict each other', () => {
  it.each<[string, Correction, Correction]>([
    ['two tempos', tempo(87), tempo(174)],
    ['two metres', { kind: 'metre', beatsPerBar: 3 }, { kind: 'metre', beatsPerBar: 4 }],
    ['two first ones', first(1), first(12)],
    ['something before the first one', first(12), phrase(4)],
    ['a beat before the first one', first(12), { kind: 'beat', time: 3 }],
    ['a phrase that starts and does not', phrase(64.2), phrase(64.25, false)],
    ['no phrase on the first one', first(64.2), phrase(64.2, false)],
    ['a section where no phrase starts', section(64.2), phrase(64.2, false)],
    ['two functions of one section', section(64.2, 'drop'), section(64.2, 'main')],
    ['a section that starts and does not', section(64.2), section(64.2, null, false)],
    ['a layer that enters and does not', bass(64.2), bass(64.6, false)],
    ['a layer that enters and leaves at once', bass(64.2), bass(64.2, true, 'leaves')],
  ])('%s', (_, a, b) => {
    expect(contradict(a, b)).toBe(true);
    expect(contradict(b, a)).toBe(true);
  });

  it.each<[string, Correction, Correction]>([
    ['the same tempo, said less exactly', tempo(174), tempo(173.9)],
    ['a tempo and a first one', tempo(87), first(1)],
    ['two phrases', phrase(64.2), phrase(95.2)],
    ['no phrase before the first one', first(12), phrase(4, false)],
    ['a section and its function', section(64.2), section(64.2, 'drop')],
    ['a section and its phrase', section(64.2, 'drop'), phrase(64.2)],
    ['a phrase that starts no section', phrase(64.2), section(64.2, null, false)],
    ['a layer that enters and leaves later', bass(64.2), bass(95.2, true, 'leaves')],
    ['a layer that does not leave where it enters', bass(64.2), bass(64.2, false, 'leaves')],
  ])('but not %s', (_, a, b) => {
    expect(contradict(a, b)).toBe(false);
    expect(contradict(b, a)).toBe(false);
  });

  it('are said in words with their times and units', () => {
    expect(
      [tempo(87), first(12.34), phrase(64.2, false), section(64.2, 'drop'), bass(64.2, false)].map((c) =>
        correctionWords(c),
      ),
    ).toEqual([
      'the tempo is 87 BPM',
      'the first one is at 0:12.34',
      'no phrase starts at 1:04.20',
      'a section (drop) starts at 1:04.20',
      'bass in at 1:04.20 does not happen',
    ]);
    expect(correctionWords(first(12.34), 'de')).toBe('die erste Eins liegt bei 0:12,34');
  });

  it('become constraints by time, under those of the run', () => {
    expect(constraintsOf([])).toEqual({});
    expect(constraintsOf([tempo(87), section(64.2, 'drop'), phrase(32)], { grid: { tempo: 174 } })).toEqual({
      grid: { tempo: 174, barStartsAt: [32, 64.2] },
      form: { phraseStarts: [32], sections: [{ start: 64.2, function: 'drop' }] },
    });
  });
});
