import { describe, expect, it } from 'vitest';
import { lastAtOrBefore, nextMoment, positionAt } from '../../src/player/position.js';
import { viewOf } from '../../src/player/view.js';
import { sampleAnalysis } from '../support/sample-analysis.js';

const view = viewOf(sampleAnalysis());
const beat = 60 / 124;
const at = (bar: number, beats = 0) => 0.42 + ((bar - 1) * 4 + beats) * beat;

describe('lastAtOrBefore', () => {
  it('agrees with a search from the front for every place between and on the times', () => {
    const times = [-1, 0, 0.5, 0.5, 2, 7];
    for (const t of [-2, -1, -0.5, 0, 0.4, 0.5, 1, 2, 6.99, 7, 100]) {
      expect(lastAtOrBefore(times, t)).toBe(times.filter((x) => x <= t).length - 1);
    }
  });

  it('finds nothing in no times', () => {
    expect(lastAtOrBefore([], 1)).toBe(-1);
  });
});

describe('positionAt', () => {
  it('counts every beat of the track in order: bar of the group, beat of the bar', () => {
    view.beats.forEach((time, i) => {
      const position = positionAt(view, time + beat / 2)!;
      expect(position.bar.number).toBe(Math.floor(i / 4) + 1);
      expect(position.beat).toBe((i % 4) + 1);
      expect(position.bar.groupBar).toBe(((position.bar.phraseBar - 1) % 4) + 1);
    });
  });

  it('shows the beat that was jumped to, though the clock of a player rounds', () => {
    const position = positionAt(view, view.bars[40].start - 0.0005)!;
    expect([position.bar.number, position.beat]).toEqual([41, 1]);
  });

  it('counts the bars that are left down to 1 in the last bar of a phrase', () => {
    expect(positionAt(view, at(41))!.barsLeft).toBe(18);
    expect(positionAt(view, at(58))!.barsLeft).toBe(1);
    expect(positionAt(view, at(59))!.barsLeft).toBe(16);
  });

  it('is nowhere before the first bar and after the last', () => {
    expect(positionAt(view, 0.2)).toBeNull();
    expect(positionAt(view, at(105))).toBeNull();
    expect(positionAt(view, NaN)).toBeNull();
  });

  it('calls the beats of a pick-up by what they lead to: 2 3 4 before a bar of four', () => {
    const analysis = sampleAnalysis();
    const start = analysis.bars[0].start - 3 * beat;
    const withPickUp = viewOf({
      ...analysis,
      beats: [start, start + beat, start + 2 * beat, ...analysis.beats],
      bars: [
        { ...analysis.bars[0], number: 0, start, beats: 3, group: 0, groupBar: 4, phraseBar: 0 },
        ...analysis.bars,
      ],
    });
    const counts = [0, 1, 2, 3].map((i) => positionAt(withPickUp, start + (i + 0.5) * beat)!.beat);
    expect(counts).toEqual([2, 3, 4, 1]);
  });
});

describe('nextMoment', () => {
  it('names what happens on the next one that has something to it', () => {
    expect(nextMoment(view, at(40))).toMatchObject({ bar: 41, words: 'build-up: percussion in' });
    expect(nextMoment(view, at(41))).toMatchObject({ bar: 59, words: 'the drop lands: kick in, bass in' });
    expect(nextMoment(view, at(60))).toMatchObject({ bar: 75, words: 'phrase 6' });
    expect(nextMoment(view, at(92))).toBeNull();
  });
});
