import type { Hertz, Seconds } from '../../units/index.js';
import type { Random } from '../random.js';
import { createFilter, saturate } from '../sound/filters.js';
import { decay, noise } from '../sound/oscillators.js';
import { framesOf, monoShot, RATE, stereoShot, toPeak } from '../sound/shot.js';
import type { Shot } from '../sound/shot.js';

/** A clap: a few hands some milliseconds apart, then the room; different on each side. */
export function renderClap(random: Random): Shot {
  const spacing = random.between(0.008, 0.012);
  const tone = random.between(1150, 1600);
  const side = (): ((i: number) => number) => {
    const hiss = noise(random);
    const body = createFilter(tone, 1.3);
    const floor = createFilter(600);
    const hands = [0, spacing, spacing * random.between(1.9, 2.2), spacing * 3].map(framesOf);
    hands[0] = 0;
    return (i) => {
      let envelope = 0;
      for (const start of hands) if (i >= start) envelope = Math.max(envelope, decay(i - start, 0.004));
      if (i >= hands[3]) envelope = Math.max(envelope, 0.75 * decay(i - hands[3], 0.07));
      const raw = hiss();
      return floor.high(body.band(raw) + 0.25 * raw) * envelope;
    };
  };
  return toPeak(stereoShot(0.45, side(), side()), 1);
}

/** A snare: two modes of the head under the noise of the wires. */
export function renderSnare(random: Random, pitch: Hertz, ringing: Seconds): Shot {
  const wires = (): ((i: number) => number) => {
    const hiss = noise(random);
    const floor = createFilter(1500, 0.8);
    const top = createFilter(9500);
    return (i) => top.low(floor.high(hiss())) * (0.8 * decay(i, ringing) + 0.5 * decay(i, 0.006));
  };
  const left = wires();
  const right = wires();
  const head = (i: number): number => {
    const bend = 1 + 0.4 * decay(i, 0.008);
    const t = (2 * Math.PI * i) / RATE;
    return (
      0.9 * decay(i, 0.05) * Math.sin(t * pitch * bend + 0.4) + 0.45 * decay(i, 0.035) * Math.sin(t * pitch * 1.78 + 1)
    );
  };
  return toPeak(
    stereoShot(
      Math.min(0.6, ringing * 5),
      (i) => saturate(1.3 * (head(i) + left(i))),
      (i) => saturate(1.3 * (head(i) + right(i))),
    ),
    1,
  );
}

/** A tuned skin (tom, conga, bongo): a falling sine with the slap of the hand or stick. */
export function renderSkin(random: Random, pitch: Hertz, ringing: Seconds, slap: number): Shot {
  const hiss = noise(random);
  const tone = createFilter(2200, 1);
  let phase = 0.1;
  const shot = monoShot(ringing * 4, (i) => {
    phase += (pitch * (1 + 0.35 * decay(i, 0.02))) / RATE;
    const body = Math.sin(2 * Math.PI * phase) * decay(i, ringing) * (1 - decay(i, 0.0004));
    const overtone = 0.25 * Math.sin(2 * Math.PI * phase * 1.59) * decay(i, ringing * 0.4);
    return body + overtone + slap * tone.band(hiss()) * decay(i, 0.006);
  });
  return toPeak(shot, 1);
}

/** A rim or wood block: two short high modes. */
export function renderRim(random: Random): Shot {
  const pitch = random.between(1500, 1900);
  const shot = monoShot(0.07, (i) => {
    const t = (2 * Math.PI * i) / RATE;
    return Math.sin(t * pitch + 0.6) * decay(i, 0.009) + 0.6 * Math.sin(t * pitch * 0.37 + 0.5) * decay(i, 0.013);
  });
  return toPeak(shot, 1);
}
