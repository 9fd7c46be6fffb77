import { describe, expect, it } from 'vitest';
import { patternWords, scoreTaps, tapPattern, viewOf, type TapPass } from '../../src/player/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';

const analysis = sampleAnalysis();
const view = viewOf(analysis);
const beat = 60 / analysis.tempo.bpm;
const phraseOnes = analysis.phrases.map((phrase) => phrase.start);
const end = analysis.phrases.at(-1)!.end;
const whole = (taps: readonly number[]): TapPass[] => [{ from: phraseOnes[0] - 2, to: end, taps, follows: false }];
const pattern = (taps: readonly number[], delay = 0) => tapPattern(scoreTaps(view, 'phrase', whole(taps), delay));

describe('tap-along practice', () => {
  it('scores every phrase one that was heard, in milliseconds and in beats', () => {
    const { ones, extra } = scoreTaps(view, 'phrase', whole(phraseOnes.map((t) => t + 0.03)));
    expect(extra).toBe(0);
    expect(ones.map((one) => one.bar)).toEqual(analysis.phrases.map((phrase) => phrase.startBar));
    for (const one of ones) {
      expect(one.errorSeconds).toBeCloseTo(0.03, 9);
      expect(one.errorBeats).toBeCloseTo(0.03 / beat, 2);
    }
  });

  it('asks for four-bar group ones as well, and for none that lies before the music was running', () => {
    const groups = view.bars.filter((bar) => bar.groupBar === 1);
    expect(scoreTaps(view, 'group', whole([])).ones).toHaveLength(groups.length);
    const from = phraseOnes[1] - 0.5 * beat;
    const { ones } = scoreTaps(view, 'phrase', [{ from, to: end, taps: [], follows: false }]);
    expect(ones[0].time).toBe(phraseOnes[2]);
  });

  it('does not change when the whole track is shifted in time', () => {
    const shift = 7.25;
    const moved = {
      ...analysis,
      beats: analysis.beats.map((t) => t + shift),
      bars: analysis.bars.map((bar) => ({ ...bar, start: bar.start + shift })),
      phrases: analysis.phrases.map((p) => ({ ...p, start: p.start + shift, end: p.end + shift })),
    };
    const taps = phraseOnes.map((t, i) => t + 0.05 * Math.sin(9 * i));
    const later = whole(taps).map((p) => ({
      ...p,
      from: p.from + shift,
      to: p.to + shift,
      taps: taps.map((t) => t + shift),
    }));
    const errors = (score: ReturnType<typeof scoreTaps>) => score.ones.map((one) => one.errorBeats!.toFixed(6));
    expect(errors(scoreTaps(viewOf(moved), 'phrase', later))).toEqual(errors(scoreTaps(view, 'phrase', whole(taps))));
  });

  it('tells steady lateness from uneven tapping, and takes the delay of a device off', () => {
    const late = phraseOnes.map((t) => t + 0.06);
    expect(pattern(late).bias).toBeCloseTo(60, 6);
    expect(pattern(late).spread).toBeCloseTo(0, 6);
    expect(pattern(late, 0.06).bias).toBeCloseTo(0, 6);
    expect(patternWords(pattern(late), 'phrase one', 4)).toContain('60 ms late as a rule, and steady (±0 ms).');
    const uneven = phraseOnes.map((t, i) => t + (i % 2 === 0 ? 0.08 : -0.08));
    expect(patternWords(pattern(uneven), 'phrase one', 4).join(' ')).toContain('uneven');
  });

  it('sees that a count is shifted by a bar, and which ones were let by', () => {
    const shifted = pattern(phraseOnes.map((t) => t + 4 * beat));
    expect(shifted).toMatchObject({ right: 0, beatsOff: 4, missed: 0 });
    expect(patternWords(shifted, 'phrase one', 4)[1]).toBe(
      'Mostly 4 beats late (a bar): your count is shifted, the pulse is there.',
    );
    expect(pattern(phraseOnes.slice(1))).toMatchObject({ right: phraseOnes.length - 1, missed: 1, extra: 0 });
    expect(pattern([...phraseOnes, phraseOnes[1] + 2 * beat])).toMatchObject({ right: phraseOnes.length, extra: 1 });
  });

  it('gives a tap just before a loop starts over to the one it starts on', () => {
    const [from, to] = [phraseOnes[1], phraseOnes[2]];
    const round = (taps: readonly number[], follows: boolean): TapPass => ({ from, to, taps, follows });
    const { ones, extra } = scoreTaps(view, 'phrase', [round([to - 0.04], false), round([], true)]);
    expect(extra).toBe(0);
    expect(ones).toHaveLength(1);
    expect(ones[0]).toMatchObject({ time: from });
    expect(ones[0].errorSeconds).toBeCloseTo(-0.04, 9);
  });

  it('says what to do when no one came by', () => {
    const none = tapPattern(scoreTaps(view, 'phrase', [{ from: 0, to: 0.1, taps: [], follows: false }]));
    expect(patternWords(none, 'phrase one', 4)).toEqual([
      'No phrase one came by: let the music run over the next one.',
    ]);
  });

  it('finds mistakes after a phrase of unusual length', () => {
    const odd = { ...analysis, phrases: analysis.phrases.map((p, i) => ({ ...p, regular: i !== 1 })) };
    const taps = phraseOnes.map((t, i) => (i === 2 ? t + 8 * beat : t));
    const found = tapPattern(scoreTaps(viewOf(odd), 'phrase', whole(taps)));
    expect(found.afterOdd).toEqual({ heard: 1, right: 0 });
    expect(patternWords(found, 'phrase one', 4).at(-1)).toContain('unusual length');
  });
});
