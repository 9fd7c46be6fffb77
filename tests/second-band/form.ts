import { LAYERS, type Layer, type SectionFunction } from '../../src/units/index.js';
import type { Dice } from './dice.js';
import { ENDINGS, type Manner, type Phrase, type Section } from './plan.js';

/** Orders of sections with their lengths in phrases of eight bars. */
const LAYOUTS = [
  'intro 2, main 2, breakdown 1, build-up 1, main 2, main 1, outro 1',
  'intro 1, main 2, breakdown 2, main 2, breakdown 1, build-up 1, main 2, outro 2',
  'intro 2, build-up 1, main 2, breakdown 1, build-up 1, main 2, outro 1',
  'intro 1, main 1, main 2, breakdown 1, main 2, outro 1',
  'intro 1, build-up 1, main 2, main 2, breakdown 1, build-up 1, main 1, main 1, outro 1',
  'intro 2, main 3, breakdown 1, main 3, outro 2',
  'intro 1, main 2, build-up 1, main 1, main 2, breakdown 1, build-up 1, main 2, outro 1',
  'intro 3, main 2, breakdown 2, build-up 1, main 4, outro 1',
] as const;

const CASTS: Readonly<Record<SectionFunction, readonly string[]>> = {
  intro: ['kp', 'p', 'hp', 'k', 'kph', 'h', 'bp', 'kb', 'kpb', 'v h'],
  'build-up': ['ph', 'phv', 'pbh', 'kph', 'hp', 'pv'],
  drop: ['kpbh', 'kpbhv', 'kpb', 'kpbh', 'kpbv'],
  main: ['kpbh', 'kpbhv', 'kpb', 'kpbv', 'kph'],
  breakdown: ['h', 'hv', 'ph', 'phv', 'bh', 'bhv', 'pv', 'pb'],
  outro: ['kp', 'kpb', 'k', 'ph', 'h', 'kph', 'p'],
};

const cast = (letters: string): Layer[] => LAYERS.filter((layer) => letters.includes(layer[0]));
const same = (a: readonly Layer[], b: readonly Layer[]) => a.length === b.length && a.every((l) => b.includes(l));

/** Draws the sections of a track in phrases of `unit` bars, so that layers change at every boundary of a section. */
export function drawForm(d: Dice, unit: number): Section[] {
  const sections: Section[] = [];
  let before: Layer[] = [];
  for (const entry of d.one(LAYOUTS).split(', ')) {
    const [word, count] = entry.split(' ');
    const name = named(word as SectionFunction, sections.at(-1)?.function);
    const phrases: Phrase[] = [];
    const length = Math.max(1, Math.round((Number(count) * 8) / unit));
    let layers = drawCast(d, name, before);
    for (let i = 0; i < length; i++) {
      if (i > 0 && d.happens(0.55)) layers = drawCast(d, name, layers);
      phrases.push(drawPhrase(d, unit, layers, name));
      before = layers;
    }
    sections.push({ function: name, phrases, bpm: null, variant: d.whole(0, 2) });
  }
  return sections;
}

/** A drop is the first main section after a build-up or a breakdown. */
function named(word: SectionFunction, before: SectionFunction | undefined): SectionFunction {
  return word === 'main' && (before === 'build-up' || before === 'breakdown') ? 'drop' : word;
}

function drawCast(d: Dice, name: SectionFunction, before: readonly Layer[]): Layer[] {
  const choices = CASTS[name].map(cast).filter((layers) => !same(layers, before));
  return d.one(choices);
}

function drawPhrase(d: Dice, unit: number, layers: Layer[], name: SectionFunction): Phrase {
  const alone = !layers.some((l) => l === 'kick' || l === 'percussion' || l === 'bass');
  const manner: Manner = alone ? d.one(['struck', 'both']) : d.one(['held', 'struck', 'both']);
  const guest = layers.filter((l) => l === 'voice' || l === 'harmony' || l === 'percussion');
  const late = unit > 4 && guest.length > 0 && layers.length > 2 && name !== 'build-up' && d.happens(0.12);
  return {
    bars: unit,
    layers,
    late: late ? { layer: d.one(guest), bar: unit / 2 + 1 } : null,
    manner,
    ending: d.happens(0.2) ? 'none' : d.one(ENDINGS),
    added: 0,
    odd: false,
    oddBar: null,
    pickUp: null,
    halfTime: false,
  };
}
