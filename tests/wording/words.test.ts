import { describe, expect, it } from 'vitest';
import { CHANGES, LAYERS, PITCH_CLASSES, SECTION_FUNCTIONS } from '../../src/units/index.js';
import {
  changeWords,
  doubtWord,
  keyName,
  LANGUAGES,
  onTheOne,
  withDoubt,
  type Language,
} from '../../src/wording/index.js';

describe('words', () => {
  it('tells kick and percussion together as drums, and all layers as everything', () => {
    expect(changeWords([{ layer: 'bass', change: 'enters' }])).toEqual(['bass in']);
    expect(changeWords([{ layer: 'kick', change: 'leaves' }])).toEqual(['kick out']);
    expect(
      changeWords([
        { layer: 'percussion', change: 'leaves' },
        { layer: 'voice', change: 'enters' },
        { layer: 'kick', change: 'leaves' },
      ]),
    ).toEqual(['voice in', 'drums out']);
    expect(changeWords(LAYERS.map((layer) => ({ layer, change: 'enters' })))).toEqual(['everything in']);
  });

  it('says what happens on a one', () => {
    expect(onTheOne('drop', [{ layer: 'bass', change: 'enters' }])).toBe('the drop lands: bass in');
    expect(onTheOne('breakdown', [])).toBe('breakdown');
    expect(onTheOne(null, [{ layer: 'harmony', change: 'leaves' }])).toBe('harmony out');
    expect(onTheOne(null, [])).toBe('');
  });

  it('shows doubt, and the other reading where there is one', () => {
    expect([0.95, 0.7, 0.3, null].map((c) => doubtWord(c))).toEqual([
      'sure',
      'fairly sure',
      'not sure',
      'cannot be judged',
    ]);
    expect(withDoubt('A minor', 0.95)).toBe('A minor');
    expect(withDoubt('A minor', 0.7)).toBe('A minor, fairly sure');
  });

  it('names keys by tonic and mode', () => {
    expect(keyName('F#', 'minor')).toBe('F# minor');
    expect(keyName('C', 'major')).toBe('C major');
  });

  // Key signatures of at most six sharps or flats: elementary music theory, common practice.
  it('spells every key with the fewer sharps or flats', () => {
    const of = (mode: 'major' | 'minor', language?: 'de') =>
      PITCH_CLASSES.map((p) => keyName(p, mode, language).split(/[ -]/)[0]);
    expect(of('major')).toEqual(['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B']);
    expect(of('minor')).toEqual(['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'Bb', 'B']);
    expect(of('major', 'de')).toEqual(['C', 'Des', 'D', 'Es', 'E', 'F', 'Fis', 'G', 'As', 'A', 'B', 'H']);
    expect(of('minor', 'de').map((n) => n.toLowerCase())).toEqual([
      'c',
      'cis',
      'd',
      'dis',
      'e',
      'f',
      'fis',
      'g',
      'gis',
      'a',
      'b',
      'h',
    ]);
  });

  it.each(Object.keys(LANGUAGES) as Language[])('has a word for everything in language %s', (language) => {
    const words = LANGUAGES[language];
    for (const l of LAYERS) expect(words.layers[l]).not.toBe('');
    for (const f of SECTION_FUNCTIONS) expect(words.functions[f]).not.toBe('');
    for (const c of CHANGES) expect(words.changes[c]).not.toBe('');
  });
});
