import { describe, expect, it } from 'vitest';
import { findForm, type Form } from '../../src/form/index.js';
import type { ArrangedPhrase, Arrangement } from '../../src/arranger/index.js';
import { arranged, part, track } from './arranged.js';

const half = (form: Form) =>
  form.irregularities.flatMap((i) =>
    i.kind === 'half-time' ? [{ bar: i.bar, endBar: i.endBar, counted: i.countedBpm, felt: i.feltBpm }] : [],
  );

/** A track whose drop has two phrases of the given kind. */
function withDrop(more: Partial<ArrangedPhrase>, style: Partial<Arrangement> = {}): Form {
  const { frontEnd, grid } = arranged(
    track(
      [
        part('intro', [8, 'kp']),
        part('main', [8, 'kpbh'], [8, 'kpbh', { fill: 'toms' }]),
        part('drop', [8, 'kpbh', more], [8, 'kpbh', more]),
        part('main', [8, 'kpbh']),
        part('outro', [8, 'kp']),
      ],
      style,
    ),
  );
  return findForm(frontEnd, grid);
}

describe('half-time', () => {
  it.each([
    ['over a kick on every beat', { style: 'bright-four', bpm: 128 }],
    ['among quick breaks', { style: 'quick-breaks', bpm: 172 }],
    ['at a slow tempo', { style: 'slow-swing', bpm: 96, swing: 0.58 }],
  ] as const)('is told from phrase to phrase %s', (_, style) => {
    const { bpm } = style;
    expect(half(withDrop({ halfTime: true, density: 0.6 }, style))).toEqual([
      { bar: 25, endBar: 40, counted: bpm, felt: bpm / 2 },
    ]);
  });

  it.each(['quick-breaks', 'broken-step', 'live-band'] as const)(
    'is not told of %s whose drums only thin out',
    (style) => {
      expect(half(withDrop({ density: 0.3 }, { style, bpm: 124 }))).toEqual([]);
    },
  );

  it('is not told of drums that play so throughout: that is their pattern', () => {
    const slow = { halfTime: true } as const;
    const { frontEnd, grid } = arranged(
      track([
        part('intro', [8, 'kp', slow]),
        part('main', [8, 'kpbh', slow], [8, 'kpb', slow]),
        part('outro', [8, 'kp', slow]),
      ]),
    );
    expect(half(findForm(frontEnd, grid))).toEqual([]);
  });
});
