import type { TrackAnalysis } from '../../src/track/index.js';
import { LAYERS, type IrregularityKind, type Layer } from '../../src/units/index.js';
import { irregularity } from '../ladder/variants.js';
import { sampleAnalysis, type SamplePart } from '../support/sample-analysis.js';

const times = (count: number, bars: number) => Array.from({ length: count }, () => bars);
const DRUMS: readonly Layer[] = ['kick', 'percussion'];

/** 600 bars of phrases of eight: fifteen minutes and more. */
const LONGEST: readonly SamplePart[] = [
  { function: 'intro', phrases: times(8, 8), layers: DRUMS },
  { function: 'main', phrases: times(16, 8), layers: ['kick', 'bass', 'percussion', 'harmony'] },
  { function: 'breakdown', phrases: times(5, 8), layers: ['harmony', 'voice'] },
  { function: 'build-up', phrases: times(4, 8), layers: ['percussion', 'harmony'] },
  { function: 'drop', phrases: times(30, 8), layers: LAYERS },
  { function: 'outro', phrases: times(12, 8), layers: DRUMS },
];

const PLACES: Readonly<
  Partial<Record<IrregularityKind, (bar: number) => TrackAnalysis['irregularities'][number]['parameters']>>
> = {
  'tempo-change': (bar) => ({ fromBpm: 124, toBpm: 125 + (bar % 4) }),
  'half-time': (bar) => ({ endBar: bar + 2, countedBpm: 124, feltBpm: 62 }),
  'pick-up': () => ({ beats: 2 }),
  'beatless-passage': (bar) => ({ endBar: bar + 1 }),
};

function withForty(): TrackAnalysis {
  const track = sampleAnalysis(undefined, { title: 'Forty Turns of the Windlass', irregularities: [] });
  const kinds = Object.keys(PLACES) as (keyof typeof PLACES)[];
  const irregularities = Array.from({ length: 40 }, (_, i) => {
    const [kind, bar] = [kinds[i % kinds.length], 2 + Math.floor(i * 2.5)];
    const told = `At bar ${bar} the count leaves its pattern (${kind}): two beats are heard that the metre has no place for; count again from there, and listen for the bass before you do.`;
    return irregularity(kind, bar, PLACES[kind]!(bar), told);
  });
  return { ...track, irregularities };
}

/** Tracks at the edge of what there is. */
export const EXTREMES: Readonly<Record<string, () => TrackAnalysis>> = {
  '12 bars': () =>
    sampleAnalysis([{ function: 'main', phrases: [8, 4], layers: LAYERS }], {
      title: 'Jingle',
      phraseBars: 8,
      irregularities: [],
    }),
  '600 bars': () => sampleAnalysis(LONGEST, { title: 'The Whole Canal', phraseBars: 8, irregularities: [] }),
  '600 bars in phrases of 32': () =>
    sampleAnalysis(
      [
        { function: 'intro', phrases: times(2, 32), layers: DRUMS },
        { function: 'drop', phrases: [...times(15, 32), 24], layers: LAYERS },
        { function: 'outro', phrases: [32], layers: DRUMS },
      ],
      { title: 'The Whole River', phraseBars: 32, irregularities: [] },
    ),
  '40 irregularities': withForty,
  'no sections': () => ({ ...sampleAnalysis(undefined, { title: 'One Long Reach' }), sections: [] }),
  'a title of 300 characters': () =>
    sampleAnalysis(undefined, {
      title: 'The Lock-Keeper’s Account of the Long Winter '.repeat(7).slice(0, 300),
      artist: 'The Ferry House Workshop with Friends from Both Banks '.repeat(6).slice(0, 300),
    }),
};
