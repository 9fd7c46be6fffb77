import { describe, expect, it } from 'vitest';
import { remark, wordsOf, type Language } from '../../src/wording/index.js';
import { IRREGULARITY_KINDS, LAYERS, MODES, PITCH_CLASSES } from '../../src/units/index.js';

/** Every text of a table, with functions called on numbers and words. */
function texts(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(texts);
}

describe('the second language', () => {
  it('has words of its own wherever the trade does not use the same ones', () => {
    const same = texts(wordsOf('de')).filter((text) => texts(wordsOf('en')).includes(text));
    // English words of the trade, units, and layers' letters.
    const shared = ['K', 'B', 'P', 'H', 'BPM', '', 'mono', 'stereo', 'Phrase', 'section'];
    expect(same.filter((text) => !shared.includes(text))).toEqual([]);
  });

  it('keeps the letters of the layers apart in every language', () => {
    for (const language of ['en', 'de'] as Language[])
      expect(new Set(LAYERS.map((l) => wordsOf(language).letters[l])).size).toBe(LAYERS.length);
  });

  it('names keys as they are named in German: H for B, minor in small letters (common practice, no source)', () => {
    const { key } = { key: (t: (typeof PITCH_CLASSES)[number], m: (typeof MODES)[number]) => wordsOf('de').key(t, m) };
    expect([key('B', 'minor'), key('C#', 'major'), key('A', 'minor'), key('F#', 'minor')]).toEqual([
      'h-Moll',
      'Des-Dur',
      'a-Moll',
      'fis-Moll',
    ]);
    const names = PITCH_CLASSES.flatMap((tonic) => MODES.map((mode) => key(tonic, mode)));
    expect(new Set(names).size).toBe(24);
  });

  it('writes a decimal comma, also in clock times, and a true minus', () => {
    const de = wordsOf('de');
    expect([de.clock(72.34), de.clock(72.34, 2), de.number(-3.14, 1), de.number(87, 2)]).toEqual([
      '1:12,3',
      '1:12,34',
      '−3,1',
      '87',
    ]);
  });

  it.each(['en', 'de'] as Language[])(
    'has a remark of a few words for every irregularity that needs one (%s)',
    (language) => {
      const parameters = { bars: 18, usualBars: 16, endBar: 58, beats: 2, toBpm: 126.4 };
      for (const kind of IRREGULARITY_KINDS) {
        const text = remark({ kind, bar: 57, parameters }, { last: false, barBeats: 5 }, language);
        if (kind === 'drift') expect(text).toBeNull();
        else {
          expect(text).not.toMatch(/undefined|NaN/);
          expect(text!.length).toBeLessThan(45);
        }
      }
      const said = remark({ kind: 'added-bars', bar: 57, parameters }, { last: false, barBeats: null }, language);
      expect(said).toBe(
        language === 'en' ? '2 bars over: count again from bar 59' : '2 Takte zu viel: ab Takt 59 neu zählen',
      );
    },
  );
});
