import type { IrregularityKind, Layer } from '../../src/units/index.js';
import type { Dice } from './dice.js';
import type { Phrase, Plan, Section } from './plan.js';
import { STYLES } from './styles.js';

type Planter = (plan: Plan, d: Dice) => boolean;

/** Sections that neither begin nor end the track. */
const inner = (plan: Plan): Section[] => plan.sections.slice(1, -1);
const plain = (p: Phrase) => p.added === 0 && !p.odd && p.oddBar === null && p.pickUp === null && !p.halfTime;
const innerPhrases = (plan: Plan): Phrase[] => inner(plan).flatMap((s) => s.phrases.filter(plain));

function bars(sign: 1 | -1): Planter {
  return (plan, d) => {
    const places = innerPhrases(plan);
    if (places.length === 0) return false;
    const phrase = d.one(places);
    const count = d.one(plan.unit === 4 ? [1, 2] : [1, 2, 2, 4]);
    phrase.added = sign * count;
    phrase.bars += sign * count;
    return true;
  };
}

function beats(sign: 1 | -1): Planter {
  return (plan, d) => {
    const places = innerPhrases(plan);
    if (places.length === 0) return false;
    const phrase = d.one(places);
    const usual = STYLES[plan.style].beatsPerBar;
    const count = usual === 3 ? 1 : d.one([1, 2, 2]);
    const bar = d.happens(0.75) ? phrase.bars : Math.ceil(phrase.bars / 2);
    phrase.oddBar = { bar, beats: usual + sign * count };
    return true;
  };
}

/** A whole section in phrases of a length of its own, over a chord loop of that length. */
const oddPhrase: Planter = (plan, d) => {
  const places = inner(plan).filter((s) => s.function !== 'build-up' && s.phrases.every(plain));
  if (places.length === 0) return false;
  const length = d.one({ 4: [3, 5, 6], 8: [5, 6, 7, 9, 10], 16: [10, 12, 14] }[plan.unit]);
  for (const phrase of d.one(places).phrases) {
    phrase.bars = length;
    phrase.odd = true;
    phrase.late = null;
  }
  return true;
};

const pickUp: Planter = (plan, d) => {
  const places = plan.sections.flatMap((section, i) => {
    const before = plan.sections[i - 1]?.phrases.at(-1);
    const first = section.phrases[0];
    if (!before || !plain(first) || before.oddBar !== null) return [];
    const layers = first.layers.filter(
      (l): l is Layer =>
        (l === 'bass' || l === 'voice' || l === 'harmony') && !before.layers.includes(l) && first.late?.layer !== l,
    );
    return layers.length > 0 && (section.function === 'main' || section.function === 'drop') ? [{ first, layers }] : [];
  });
  if (places.length === 0) return false;
  const { first, layers } = d.one(places);
  first.pickUp = { beats: d.one(STYLES[plan.style].beatsPerBar === 3 ? [1, 2] : [1, 2, 2, 3]), layers };
  return true;
};

const beatless: Planter = (plan, d) => {
  const places = plan.sections.filter((s) => s.function === 'breakdown' || s.function === 'intro');
  if (places.length === 0) return false;
  const section = d.one(places);
  const count = Math.ceil(8 / plan.unit);
  while (section.phrases.length < count) section.phrases.push({ ...section.phrases[0] });
  const layers = d.one<Layer[]>([['harmony'], ['harmony', 'voice']]);
  for (const phrase of section.phrases.slice(0, count)) {
    Object.assign(phrase, { layers, late: null, manner: 'held', ending: 'none', pickUp: null });
  }
  return true;
};

const tempo: Planter = (plan, d) => {
  if (plan.drift > 0 || inner(plan).length === 0) return false;
  d.one(inner(plan)).bpm = Math.round(plan.bpm * d.one([0.92, 0.95, 0.97, 1.03, 1.06, 1.1]));
  return true;
};

const drift: Planter = (plan, d) => {
  if (!plan.acoustic || plan.sections.some((s) => s.bpm !== null)) return false;
  plan.drift = d.between(0.007, 0.018);
  return true;
};

const halfTime: Planter = (plan, d) => {
  if (STYLES[plan.style].beatsPerBar === 3 || plan.style === 'tresillo' || plan.style === 'lope') return false;
  const places = plan.sections
    .filter((s) => s.function === 'main' || s.function === 'drop')
    .flatMap((s) => s.phrases)
    .filter((p) => plain(p) && p.bars >= 8 && p.layers.includes('kick') && p.layers.includes('percussion'));
  if (places.length === 0) return false;
  const phrase = d.one(places);
  phrase.halfTime = true;
  if (phrase.late?.layer === 'percussion') phrase.late = null;
  return true;
};

const PLANTERS: Readonly<Record<IrregularityKind, Planter>> = {
  'added-bars': bars(1),
  'dropped-bars': bars(-1),
  'added-beats': beats(1),
  'dropped-beats': beats(-1),
  'odd-phrase': oddPhrase,
  'pick-up': pickUp,
  'beatless-passage': beatless,
  'tempo-change': tempo,
  drift,
  'half-time': halfTime,
};

/** Plants up to `count` different kinds, where the track has a place for them. */
export function plant(plan: Plan, d: Dice, count: number): void {
  let left = count;
  for (const kind of d.shuffled(Object.keys(PLANTERS) as IrregularityKind[])) {
    if (left > 0 && PLANTERS[kind](plan, d)) left--;
  }
}
