import type { ArrangedPart, ArrangedPhrase, Arrangement, Fill, StyleName } from '../../../src/arranger/index.js';
import { STYLES } from '../../../src/arranger/index.js';
import { seededRandom, type Random } from '../../../src/arranger/random.js';
import { PITCH_CLASSES, type Layer, type SectionFunction } from '../../../src/units/index.js';

/** Arrangements to learn from, with other habits than those that `randomArrangement` draws. */

const FILLS: readonly Fill[] = ['none', 'none', 'kick-out-beat', 'kick-out-bar', 'snare-roll', 'toms', 'stop'];
const TEMPOS: Readonly<Record<StyleName, readonly [number, number]>> = {
  'warm-four': [118, 126],
  'bright-four': [124, 130],
  'driving-four': [128, 136],
  'hard-four': [136, 150],
  'slow-swing': [95, 116],
  'broken-step': [120, 140],
  'quick-breaks': [165, 178],
  'live-band': [105, 128],
  'lilting-three': [100, 150],
};
const PROGRESSIONS = [[1, 6, 3, 7], [1, 1, 4, 5], [1, 4], [1, 7, 6, 7], [1], [1, 1, 6, 6, 4, 4, 5, 5]] as const;
const MOVABLE: readonly Layer[] = ['harmony', 'voice', 'bass', 'percussion'];

type Draft = { -readonly [K in keyof ArrangedPhrase]: ArrangedPhrase[K] };
type Section = { readonly function: SectionFunction; readonly phrases: Draft[] };

function phrase(random: Random, bars: number, layers: readonly Layer[], more: Partial<ArrangedPhrase> = {}): Draft {
  return { bars, layers, fill: random.pick(FILLS), ...more };
}

function fullLayers(random: Random): Layer[] {
  const layers: Layer[] = ['kick', 'bass', 'percussion'];
  if (random.chance(0.85)) layers.push('harmony');
  if (random.chance(0.35)) layers.push('voice');
  return layers;
}

function toggled(layers: readonly Layer[], random: Random): readonly Layer[] {
  const layer = random.pick(MOVABLE);
  if (!layers.includes(layer)) return [...layers, layer];
  return layers.length > 2 ? layers.filter((l) => l !== layer) : layers;
}

function repeat<T>(count: number, make: (i: number) => T): T[] {
  return Array.from({ length: count }, (_, i) => make(i));
}

function intro(random: Random, usual: number): Section {
  let layers: Layer[] = [random.chance(0.2) ? 'harmony' : random.chance(0.7) ? 'kick' : 'percussion'];
  const phrases = repeat(random.whole(1, usual === 8 ? 3 : 2), () => {
    const made = phrase(random, usual, layers);
    const rest = (['percussion', 'bass', 'harmony', 'kick'] as const).filter((l) => !layers.includes(l));
    layers = [...layers, random.pick(rest)];
    return made;
  });
  return { function: 'intro', phrases };
}

function loud(random: Random, usual: number, name: SectionFunction): Section {
  const layers = fullLayers(random);
  const count = random.whole(1, usual === 8 ? 4 : 2);
  return {
    function: name,
    phrases: repeat(count, (i) =>
      phrase(random, usual, i > 0 && random.chance(0.45) ? toggled(layers, random) : layers),
    ),
  };
}

function round(random: Random, usual: number, first: boolean): Section[] {
  const sections: Section[] = [];
  if (first && random.chance(0.7)) sections.push(loud(random, usual, 'main'));
  if (random.chance(0.8)) {
    const breaks: readonly (readonly Layer[])[] = [['harmony'], ['harmony', 'voice'], ['harmony', 'percussion']];
    const quiet = () =>
      phrase(random, usual, random.pick(breaks), { textures: [random.pick(['pad', 'arp', 'stabs'] as const)] });
    sections.push({ function: 'breakdown', phrases: repeat(random.whole(1, 2), quiet) });
  }
  if (random.chance(0.75)) {
    const layers: Layer[] = ['percussion'];
    if (random.chance(0.7)) layers.push('harmony');
    if (random.chance(0.3)) layers.push('voice');
    const bars = usual === 16 && random.chance(0.3) ? 8 : usual;
    const more = random.chance(0.4) ? { fill: 'snare-roll' as const, roll: false } : { fill: 'snare-roll' as const };
    sections.push({ function: 'build-up', phrases: [phrase(random, bars, layers, more)] });
  }
  const built = sections.length > 0 && sections[sections.length - 1].function !== 'main';
  sections.push(loud(random, usual, built ? 'drop' : 'main'));
  if (built && random.chance(0.4)) sections.push(loud(random, usual, 'main'));
  return sections;
}

function outro(random: Random, usual: number): Section {
  const layers: readonly Layer[] = ['kick', 'percussion', 'bass'];
  return {
    function: 'outro',
    phrases: repeat(random.whole(1, 2), (i) => phrase(random, usual, layers.slice(0, 3 - i))),
  };
}

/** Changes one phrase: bars added or dropped, an odd length, a short one, four more bars, beats, or a pick-up. */
function disturb(random: Random, before: Draft, next: Draft, usual: number, beatsPerBar: number): void {
  const kind = random.pick(['add', 'add', 'drop', 'odd', 'pick-up', 'short', 'four more', 'beats'] as const);
  const some = random.pick([1, 2, 2, 2, 3]);
  if (kind === 'add') Object.assign(before, { bars: before.bars + some, addedBars: some });
  if (kind === 'drop') Object.assign(before, { bars: before.bars - some, addedBars: -some });
  if (kind === 'odd') Object.assign(before, { bars: random.pick([3, 5, 6]), odd: true });
  if (kind === 'short' && usual === 16) before.bars = 8;
  if (kind === 'four more') before.bars += 4;
  if (kind === 'beats') before.oddBars = [{ bar: before.bars, beats: beatsPerBar + random.pick([-2, -1, 1, 2]) }];
  if (kind === 'pick-up') addPickUp(random, before, next, beatsPerBar);
}

function addPickUp(random: Random, before: Draft, next: Draft, beatsPerBar: number): void {
  const entering = next.layers.filter((l) => !before.layers.includes(l));
  const tuneful = entering.filter((l) => l !== 'percussion');
  const choice = tuneful.length > 0 ? tuneful : entering;
  if (choice.length === 0) return;
  const layers = random.chance(0.7) ? [random.pick(choice)] : choice;
  next.pickUp = { beats: random.whole(1, beatsPerBar - 1), layers };
}

function dressed(seed: number, random: Random, parts: readonly ArrangedPart[], style: StyleName): Arrangement {
  return {
    seed,
    style,
    bpm: Math.round(random.between(...TEMPOS[style])),
    beatsPerBar: style === 'lilting-three' ? 3 : 4,
    swing: style === 'slow-swing' ? 0.58 : 0.5,
    key: { tonic: random.pick(PITCH_CLASSES), mode: random.chance(0.7) ? 'minor' : 'major' },
    progression: random.pick(PROGRESSIONS),
    leadIn: random.between(0, 0.8),
    parts,
  };
}

/** A whole track; two in three are irregular somewhere. */
export function practiceArrangement(seed: number): Arrangement {
  const random = seededRandom(seed).fork('practice');
  const style = random.pick(STYLES);
  const usual = random.chance(0.6) ? 8 : 16;
  const parts = [intro(random, usual)];
  for (let i = 0, rounds = random.whole(1, 3); i < rounds; i++) parts.push(...round(random, usual, i === 0));
  parts.push(outro(random, usual));
  const phrases = parts.flatMap((p) => p.phrases);
  if (random.chance(0.65)) {
    const at = random.whole(0, phrases.length - 2);
    disturb(random, phrases[at], phrases[at + 1], usual, style === 'lilting-three' ? 3 : 4);
  }
  return dressed(seed, random, parts, style);
}

/** A short track with a pick-up before about every second phrase. */
export function pickUpArrangement(seed: number): Arrangement {
  const random = seededRandom(seed).fork('pick-ups');
  const style = random.pick(STYLES);
  const sets = ['kp', 'kpb', 'h', 'hv', 'ph', 'kpbh', 'kpbhv', 'pb', 'k'];
  const names: Readonly<Record<string, Layer>> = { k: 'kick', p: 'percussion', b: 'bass', h: 'harmony', v: 'voice' };
  const functions: readonly SectionFunction[] = ['intro', 'main', 'breakdown', 'build-up', 'drop', 'main', 'outro'];
  const parts = functions.map((name) => ({
    function: name,
    phrases: [
      phrase(
        random,
        8,
        [...random.pick(sets)].map((l) => names[l]),
      ),
    ],
  }));
  for (let i = 1; i < parts.length; i++)
    if (random.chance(0.55))
      addPickUp(random, parts[i - 1].phrases[0], parts[i].phrases[0], style === 'lilting-three' ? 3 : 4);
  return dressed(seed, random, parts, style);
}
