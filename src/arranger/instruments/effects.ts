import type { Seconds } from '../../units/index.js';
import type { Random } from '../random.js';
import { createFilter } from '../sound/filters.js';
import { decay, noise, saw } from '../sound/oscillators.js';
import { framesOf, monoShot, RATE, stereoShot } from '../sound/shot.js';
import type { Shot } from '../sound/shot.js';

/** A riser: noise whose band climbs while it swells, over a slowly climbing tone; its end is the one. */
export function renderRiser(duration: Seconds, random: Random): Shot {
  const length = framesOf(duration);
  const side = (): ((i: number) => number) => {
    const hiss = noise(random);
    const band = createFilter(400, 1.5);
    const tone = saw(random.next());
    const soft = createFilter(800, 1);
    let pitch = 110;
    return (i) => {
      const way = i / length;
      if (i % 64 === 0) {
        band.tune(400 * 2 ** (4.3 * way), 1.5);
        soft.tune(500 * 2 ** (3 * way), 1);
        pitch = 110 * 2 ** (2 * way);
      }
      const swell = way * way;
      return (0.5 * band.band(hiss()) + 0.16 * soft.low(tone(pitch))) * swell;
    };
  };
  return stereoShot(duration, side(), side());
}

/** A sweep that falls and dies away after a one. */
export function renderFall(duration: Seconds, random: Random): Shot {
  const length = framesOf(duration);
  const side = (): ((i: number) => number) => {
    const hiss = noise(random);
    const band = createFilter(6000, 1.1);
    return (i) => {
      const way = i / length;
      if (i % 64 === 0) band.tune(6500 * 2 ** (-4 * way), 1.1);
      return 0.5 * band.band(hiss()) * (1 - way) ** 2 * Math.min(1, i / (0.004 * RATE));
    };
  };
  return stereoShot(duration, side(), side());
}

/** A low boom under the one of a new section. */
export function renderBoom(): Shot {
  let phase = 0;
  return monoShot(1.6, (i) => {
    phase += (36 + 50 * decay(i, 0.12)) / RATE;
    return Math.sin(2 * Math.PI * phase) * decay(i, 0.45) * Math.min(1, i / (0.004 * RATE));
  });
}
