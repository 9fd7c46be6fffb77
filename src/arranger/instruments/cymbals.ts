import type { Hertz, Seconds } from '../../units/index.js';
import type { Random } from '../random.js';
import { createFilter } from '../sound/filters.js';
import { decay, noise, square } from '../sound/oscillators.js';
import { monoShot, RATE, reversed, stereoShot, toPeak } from '../sound/shot.js';
import type { Shot } from '../sound/shot.js';

/** Ratios of the partials of a struck plate, chosen so that none is a simple fraction of another. */
const PLATE = [1, 1.347, 1.733, 2.129, 2.713, 3.371] as const;

function plate(base: Hertz, random: Random): () => number {
  const partials = PLATE.map((ratio) => ({ wave: square(random.next()), frequency: base * ratio }));
  return () => {
    let sum = 0;
    for (const partial of partials) sum += partial.wave(partial.frequency);
    return sum / partials.length;
  };
}

interface CymbalCharacter {
  readonly base: Hertz;
  /** Everything below is taken away. */
  readonly floor: Hertz;
  readonly ringing: Seconds;
  /** Share of noise against metal. */
  readonly breath: number;
  readonly attack: Seconds;
}

function side(character: CymbalCharacter, random: Random): (i: number) => number {
  const metal = plate(character.base * random.between(0.98, 1.02), random);
  const hiss = noise(random);
  const first = createFilter(character.floor, 0.8);
  const second = createFilter(character.floor * 0.8);
  const top = createFilter(13500, 0.6);
  return (i) => {
    const raw = (1 - character.breath) * metal() + character.breath * hiss();
    const envelope = (1 - decay(i, character.attack)) * decay(i, character.ringing);
    return top.low(second.high(first.high(raw))) * envelope;
  };
}

/** A closed hat; each call gives a slightly different stroke. */
export function renderClosedHat(random: Random, base: Hertz): Shot {
  const ringing = random.between(0.016, 0.026);
  const stroke = { base, floor: 7200, ringing, breath: 0.55, attack: 0.0003 };
  return toPeak(monoShot(0.11, side(stroke, random)), 1);
}

/** An open hat. */
export function renderOpenHat(random: Random, base: Hertz): Shot {
  const stroke = { base, floor: 6300, ringing: 0.11, breath: 0.5, attack: 0.0005 };
  return toPeak(stereoShot(0.4, side(stroke, random), side(stroke, random)), 1);
}

/** A ride: a ping over a wash. */
export function renderRide(random: Random, base: Hertz): Shot {
  const wash = { base: base * 1.3, floor: 4200, ringing: 0.22, breath: 0.25, attack: 0.001 };
  const ping = createFilter(5200, 6);
  const hiss = noise(random);
  const left = side(wash, random);
  const right = side(wash, random);
  const ding = (i: number): number => ping.band(hiss()) * decay(i, 0.03) * 0.7;
  return toPeak(
    stereoShot(0.7, (i) => left(i) + ding(i), right),
    1,
  );
}

/** A crash. */
export function renderCrash(random: Random): Shot {
  const wash = { base: 410, floor: 2600, ringing: 0.75, breath: 0.6, attack: 0.002 };
  return toPeak(stereoShot(3, side(wash, random), side(wash, random)), 1);
}

/** A crash that swells backwards into the one; its end is the one. */
export function renderReverseCrash(random: Random, duration: Seconds): Shot {
  const wash = { base: 380, floor: 2200, ringing: duration / 3, breath: 0.6, attack: 0.004 };
  return toPeak(reversed(stereoShot(duration, side(wash, random), side(wash, random))), 1);
}

/** A shaker: its noise swells for some milliseconds, so that it has no sharp onset. */
export function renderShaker(random: Random): Shot {
  const hiss = noise(random);
  const body = createFilter(6800, 1.6);
  const swell = random.between(0.014, 0.022);
  const shot = monoShot(0.09, (i) => {
    const t = i / RATE;
    const envelope = t < swell ? (t / swell) ** 2 : Math.exp(-(t - swell) / 0.02);
    return body.band(hiss()) * envelope;
  });
  return toPeak(shot, 1);
}
