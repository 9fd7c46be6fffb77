import { describe, expect, it } from 'vitest';
import { beatlessPassages } from '../../src/form/beatless.js';
import { findForm, type Form } from '../../src/form/index.js';
import type { ArrangedPhrase } from '../../src/arranger/index.js';
import { arranged, part, track } from './arranged.js';
import { plainGrid, plainLayers } from './plain-bars.js';

type Phrase = readonly [bars: number, layers: string, more?: Partial<ArrangedPhrase>];

/** A track with the given breakdown between two phrases that drive. */
function withBreakdown(...phrases: Phrase[]): Form {
  const { frontEnd, grid } = arranged(
    track([
      part('intro', [8, 'kp']),
      part('main', [8, 'kpbh']),
      part('breakdown', ...phrases),
      part('drop', [8, 'kpbh'], [8, 'kpbh']),
      part('outro', [8, 'kp']),
    ]),
  );
  return findForm(frontEnd, grid);
}

const beatless = (form: Form) =>
  form.irregularities.flatMap((i) => (i.kind === 'beatless-passage' ? [[i.bar, i.endBar]] : []));

describe('a passage without a beat', () => {
  it.each([
    ['chords that are only held', 'h'],
    ['held chords under a voice', 'hv'],
    ['a voice alone', 'v'],
  ])('is told in the middle of a track where there is nothing but %s', (_, layers) => {
    expect(beatless(withBreakdown([8, layers, { textures: ['pad'] }]))).toEqual([[17, 24]]);
  });

  it('lasts over all phrases that hold it', () => {
    const pad = { textures: ['pad'] } as const;
    expect(beatless(withBreakdown([8, 'h', pad], [8, 'hv', pad]))).toEqual([[17, 32]]);
  });

  it.each([
    ['an arpeggio strikes the beats', [8, 'h', { textures: ['arp'] }]],
    ['a bass plays', [8, 'hb', { textures: ['pad'] }]],
    ['hats play', [8, 'hp', { textures: ['pad'] }]],
    ['it is only a breath', [4, 'h', { textures: ['pad'] }]],
  ] as const)('is none where %s', (_, phrase) => {
    expect(beatless(withBreakdown(phrase))).toEqual([]);
  });

  it('is an ending and not told when it lasts to the end', () => {
    const { frontEnd, grid } = arranged(
      track([
        part('intro', [8, 'kp']),
        part('main', [8, 'kpbh'], [8, 'kpb']),
        part('outro', [8, 'h', { textures: ['pad'] }]),
      ]),
    );
    expect(beatless(findForm(frontEnd, grid))).toEqual([]);
  });
});

describe('an opening that the grid found empty of strokes', () => {
  const parts = (textures: ArrangedPhrase['textures']) =>
    track([
      part('intro', [8, 'h', { textures }], [8, 'kp']),
      part('main', [8, 'kpbh'], [8, 'kpbh']),
      part('outro', [8, 'kp']),
    ]);
  const opening = { kind: 'beatless-passage', bar: 1, time: 0, endBar: 8, confidence: 0.9, evidence: {} } as const;
  const told = (textures: ArrangedPhrase['textures']) => {
    const { frontEnd, grid } = arranged(parts(textures));
    return beatless(findForm(frontEnd, { ...grid, irregularities: [opening] }));
  };

  it('is told once where chords are held', () => {
    expect(told(['pad'])).toEqual([[1, 8]]);
  });

  it('is dropped where an arpeggio strikes its beats', () => {
    expect(told(['arp'])).toEqual([]);
  });
});

describe('phrases without drums of which it is not plain whether chords strike the beats', () => {
  const BARS = 40;
  const grid = plainGrid(BARS);
  const layers = plainLayers(BARS, (layer, b) => layer === 'harmony' || (layer === 'kick' && (b < 8 || b >= 32)));
  /** Passages where the three phrases from bar 9 on have these log-odds of being struck. */
  const found = (...odds: number[]) =>
    beatlessPassages(grid, layers, [0, 8, 16, 24, 32], (first) => odds[first / 8 - 1] ?? 0);

  it('go on with a passage beside them', () => {
    expect(found(-1, -0.3, 2)).toMatchObject([{ bar: 9, endBar: 24 }]);
    expect(found(2, -0.3, -1)).toMatchObject([{ bar: 17, endBar: 32 }]);
  });

  it('are none alone, nor where they are plainly struck', () => {
    expect(found(2, -0.3, 2)).toEqual([]);
    expect(found(-1, 0.3, 2)).toMatchObject([{ bar: 9, endBar: 16 }]);
  });

  it('do not make the passage less sure than its plainest phrase', () => {
    const sure = (...odds: number[]) => Number(found(...odds)[0].confidence);
    expect(sure(-2, -0.3, 2)).toBeCloseTo(sure(-2, 2, 2), 6);
  });
});
