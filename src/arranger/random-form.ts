import type { SectionFunction } from '../units/index.js';
import type { ArrangedPart, ArrangedPhrase, Fill, StyleName } from './arrangement.js';
import { partOf, phraseOf } from './building.js';
import type { Random } from './random.js';

const FILLS_BETWEEN: readonly Fill[] = ['none', 'kick-out-beat', 'kick-out-bar', 'snare-roll', 'toms', 'stop'];

/** Orders in which a track may gather its layers, phrase by phrase. */
const GATHERINGS = [
  ['k', 'kp', 'kpb'],
  ['kp', 'kpb', 'kpbh'],
  ['kp', 'kph', 'kpbh'],
  ['p', 'kp', 'kpb'],
  ['h', 'hp', 'khp'],
  ['k', 'kb', 'kbp'],
  ['hp', 'khp', 'khpb'],
  ['kpb', 'kpb', 'kpbh'],
] as const;

const FULL = ['kpb', 'kpbh', 'kpbhv', 'kpbv'] as const;
const BREAKS = ['h', 'hv', 'hp', 'hpv', 'v', 'hb', 'hbv'] as const;
const DEPARTURES = [
  ['kpbh', 'kpb', 'kp'],
  ['kpb', 'kp', 'k'],
  ['kpb', 'kp', 'p'],
  ['kph', 'kp', 'kp'],
] as const;

/** A phrase of drawn fill and density. */
function drawn(random: Random, bars: number, layers: string, loud: boolean): ArrangedPhrase {
  return phraseOf(bars, layers, {
    fill: random.chance(0.25) ? 'none' : random.pick(FILLS_BETWEEN),
    ...(loud ? { density: random.between(0.65, 1) } : {}),
    ...(random.chance(0.3) ? { crash: true } : {}),
  });
}

/** A section of full phrases; voice or harmony come and go from phrase to phrase. */
function loudPart(random: Random, name: SectionFunction, bars: number, phraseBars: number): ArrangedPart {
  const phrases: ArrangedPhrase[] = [];
  let layers: string = random.pick(FULL);
  for (let done = 0; done < bars; done += phraseBars) {
    phrases.push(drawn(random, Math.min(phraseBars, bars - done), layers, true));
    if (random.chance(0.6)) layers = random.pick(FULL);
  }
  return partOf(name, ...phrases);
}

/** The sections of a track: it gathers, plays, breaks down and builds up once or twice, and thins out. */
export function drawForm(random: Random, style: StyleName): readonly ArrangedPart[] {
  const phraseBars = style === 'quick-breaks' ? 16 : random.pick([8, 8, 8, 16]);
  const gathering = random.pick(GATHERINGS);
  const introPhrases = phraseBars === 16 ? 2 : random.whole(2, 3);
  const parts: ArrangedPart[] = [
    partOf(
      'intro',
      ...gathering.slice(0, introPhrases).map((layers, i) => {
        const phrase = drawn(random, phraseBars, layers, false);
        const pads = layers === 'h' ? { textures: random.pick([['pad'], ['stabs'], ['arp']] as const) } : {};
        return { ...phrase, density: 0.3 + 0.15 * i, ...pads };
      }),
    ),
    loudPart(random, 'main', phraseBars * random.whole(1, 2), phraseBars),
  ];
  const rounds = phraseBars === 16 ? 1 : random.whole(1, 2);
  for (let round = 0; round < rounds; round++) {
    const length = random.pick([phraseBars, phraseBars, 16]);
    const textures = random.pick([['pad', 'arp'], ['pad', 'stabs'], ['arp'], ['pad']] as const);
    const quiet = phraseOf(length, random.pick(BREAKS), { density: random.between(0.1, 0.35), textures });
    parts.push(partOf('breakdown', quiet));
    if (random.chance(0.75)) {
      const build = random.pick(['ph', 'phv', 'kph', 'pbh']);
      parts.push(
        partOf(
          'build-up',
          phraseOf(random.pick([8, 8, phraseBars]), build, { fill: random.pick(['none', 'stop', 'kick-out-beat']) }),
        ),
      );
    }
    parts.push(loudPart(random, 'drop', phraseBars * random.whole(1, 2), phraseBars));
  }
  const leaving = random.pick(DEPARTURES).slice(phraseBars === 16 ? 1 : random.whole(0, 1));
  parts.push(
    partOf('outro', ...leaving.map((layers) => ({ ...drawn(random, phraseBars, layers, false), density: 0.4 }))),
  );
  return parts;
}
