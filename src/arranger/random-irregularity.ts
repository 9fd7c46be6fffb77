import type { Arrangement, ArrangedPart, ArrangedPhrase } from './arrangement.js';
import type { Random } from './random.js';

/** Changes one phrase, given as part and place in it. */
function withPhrase(
  arrangement: Arrangement,
  [part, place]: readonly [number, number],
  change: (phrase: ArrangedPhrase) => ArrangedPhrase,
): Arrangement {
  const parts = arrangement.parts.map((old, i) =>
    i === part ? { ...old, phrases: old.phrases.map((phrase, k) => (k === place ? change(phrase) : phrase)) } : old,
  );
  return { ...arrangement, parts };
}

type Place = readonly [part: number, place: number];

function places(
  arrangement: Arrangement,
  fits: (part: ArrangedPart, place: number, index: number) => boolean,
): Place[] {
  return arrangement.parts.flatMap((part, index) =>
    part.phrases.flatMap((_, place) => (fits(part, place, index) ? [[index, place] as const] : [])),
  );
}

/** Added or dropped bars: mostly two, sometimes one, three or four (the remainders that dance tracks really have). */
function unevenBars(arrangement: Arrangement, random: Random): Arrangement {
  const inside = places(arrangement, (_, place, index) => index + place > 0 && index < arrangement.parts.length - 1);
  const count = random.pick([2, 2, 2, 1, 1, 3, 4]);
  const sign = random.chance(0.6) ? 1 : -1;
  return withPhrase(arrangement, random.pick(inside), (phrase) => ({
    ...phrase,
    bars: phrase.bars + sign * count,
    addedBars: sign * count,
  }));
}

function unevenBeats(arrangement: Arrangement, random: Random): Arrangement {
  const inside = places(arrangement, (_, place, index) => index + place > 0 && index < arrangement.parts.length - 1);
  const usual = arrangement.beatsPerBar;
  const beats = usual === 3 ? random.pick([2, 4]) : random.pick([2, 2, 6, 5, 3]);
  return withPhrase(arrangement, random.pick(inside), (phrase) => ({
    ...phrase,
    oddBars: [{ bar: random.chance(0.7) ? phrase.bars : Math.max(1, phrase.bars - 4), beats }],
  }));
}

function pickUp(arrangement: Arrangement, random: Random): Arrangement {
  const starts = places(arrangement, (part, place, index) => {
    const before = index === 0 ? null : arrangement.parts[index - 1].phrases.at(-1)!;
    const enters = part.phrases[place].layers.some(
      (layer) => layer === 'bass' || layer === 'voice' || layer === 'harmony',
    );
    return place === 0 && before !== null && enters && (part.function === 'main' || part.function === 'drop');
  });
  const place = random.pick(starts);
  const before = arrangement.parts[place[0] - 1].phrases.at(-1)!;
  const layers = arrangement.parts[place[0]].phrases[0].layers.filter(
    (layer) => layer === 'bass' || layer === 'voice' || (layer === 'harmony' && !before.layers.includes(layer)),
  );
  if (layers.length === 0) return unevenBars(arrangement, random);
  const beats = random.pick(arrangement.beatsPerBar === 3 ? [1, 2] : [1, 2, 3, 3]);
  return withPhrase(arrangement, place, (phrase) => ({ ...phrase, pickUp: { beats, layers } }));
}

function halfTime(arrangement: Arrangement, random: Random): Arrangement {
  const loud = places(arrangement, (part) => part.function === 'main' || part.function === 'drop');
  return withPhrase(arrangement, random.pick(loud), (phrase) => ({ ...phrase, halfTime: true, density: 0.6 }));
}

function tempoStep(arrangement: Arrangement, random: Random): Arrangement {
  const at = random.whole(1, arrangement.parts.length - 2);
  const bpm = Math.round(arrangement.bpm * random.pick([0.94, 0.96, 1.03, 1.05, 1.08]));
  return { ...arrangement, parts: arrangement.parts.map((part, i) => (i === at ? { ...part, bpm } : part)) };
}

function beatlessOpening(arrangement: Arrangement, random: Random): Arrangement {
  const opening: ArrangedPart = {
    function: 'intro',
    phrases: random.pick([
      [{ bars: 8, layers: ['harmony'], textures: ['pad'] }],
      [
        { bars: 8, layers: ['harmony'], textures: ['pad'] },
        { bars: 8, layers: ['harmony', 'voice'], textures: ['pad'] },
      ],
    ] as const),
  };
  const [intro, ...rest] = arrangement.parts;
  return { ...arrangement, parts: [{ ...intro, phrases: [...opening.phrases, ...intro.phrases] }, ...rest] };
}

/** Plants one irregularity of a drawn kind. */
export function plantIrregularity(arrangement: Arrangement, random: Random): Arrangement {
  const plant = random.pick([
    unevenBars,
    unevenBars,
    unevenBars,
    unevenBeats,
    unevenBeats,
    pickUp,
    halfTime,
    tempoStep,
    beatlessOpening,
  ]);
  if (plant === halfTime && arrangement.beatsPerBar === 3) return unevenBars(arrangement, random);
  if (plant === tempoStep && arrangement.drift !== undefined) return unevenBeats(arrangement, random);
  return plant(arrangement, random);
}
