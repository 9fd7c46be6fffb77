import type { Layer, SectionFunction } from '../units/index.js';
import type { ArrangedPhrase, Texture } from './arrangement.js';

/** A phrase with every choice made. */
export interface PhrasePlan extends Required<Omit<ArrangedPhrase, 'pickUp'>> {
  readonly pickUp: NonNullable<ArrangedPhrase['pickUp']> | null;
  readonly function: SectionFunction;
  readonly has: Readonly<Record<Layer, boolean>>;
  /** First phrase of its section. */
  readonly opens: boolean;
}

const DENSITY: Record<SectionFunction, number> = {
  intro: 0.45,
  'build-up': 0.4,
  drop: 1,
  main: 0.8,
  breakdown: 0.2,
  outro: 0.5,
};

const BRIGHTNESS: Record<SectionFunction, readonly [number, number]> = {
  intro: [0.4, 0.6],
  'build-up': [0.4, 0.9],
  drop: [0.9, 0.9],
  main: [0.75, 0.8],
  breakdown: [0.55, 0.65],
  outro: [0.65, 0.4],
};

const TEXTURE: Record<SectionFunction, readonly Texture[]> = {
  intro: ['stabs'],
  'build-up': ['pad', 'arp'],
  drop: ['pad', 'stabs', 'lead'],
  main: ['pad', 'stabs'],
  breakdown: ['pad', 'arp'],
  outro: ['stabs'],
};

/** Makes the choices that an arranged phrase leaves open. */
export function planPhrase(phrase: ArrangedPhrase, sectionFunction: SectionFunction, opens: boolean): PhrasePlan {
  const on = (layer: Layer): boolean => phrase.layers.includes(layer);
  const loud = sectionFunction === 'drop' || sectionFunction === 'main';
  return {
    bars: phrase.bars,
    layers: phrase.layers,
    addedBars: phrase.addedBars ?? 0,
    odd: phrase.odd ?? false,
    oddBars: phrase.oddBars ?? [],
    pickUp: phrase.pickUp ?? null,
    halfTime: phrase.halfTime ?? false,
    textures: phrase.textures ?? TEXTURE[sectionFunction],
    density: phrase.density ?? DENSITY[sectionFunction],
    brightness: phrase.brightness ?? BRIGHTNESS[sectionFunction],
    fill: phrase.fill ?? 'none',
    roll: phrase.roll ?? (sectionFunction === 'build-up' && on('percussion')),
    riserBars: phrase.riserBars ?? (sectionFunction === 'build-up' ? Math.min(8, phrase.bars) : 0),
    crash: phrase.crash ?? (opens && (loud || sectionFunction === 'breakdown')),
    function: sectionFunction,
    has: {
      kick: on('kick'),
      bass: on('bass'),
      percussion: on('percussion'),
      harmony: on('harmony'),
      voice: on('voice'),
    },
    opens,
  };
}
