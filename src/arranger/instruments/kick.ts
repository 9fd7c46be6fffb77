import type { Hertz, Seconds } from '../../units/index.js';
import type { Random } from '../random.js';
import { createFilter, saturate } from '../sound/filters.js';
import { decay, noise } from '../sound/oscillators.js';
import { monoShot, RATE, toPeak } from '../sound/shot.js';
import type { Shot } from '../sound/shot.js';

/** What tells one kick from another. */
export interface KickCharacter {
  /** Pitch that the sweep falls to. */
  readonly pitch: Hertz;
  /** How far above it the sweep starts. */
  readonly sweep: Hertz;
  readonly sweepTime: Seconds;
  readonly decay: Seconds;
  /** Level of the click against the body. */
  readonly click: number;
  /** Saturation of the body: 1 is clean, 5 is hard. */
  readonly drive: number;
}

export const KICKS = {
  round: { pitch: 47, sweep: 130, sweepTime: 0.035, decay: 0.2, click: 0.25, drive: 1.4 },
  tight: { pitch: 51, sweep: 220, sweepTime: 0.022, decay: 0.14, click: 0.4, drive: 2 },
  hard: { pitch: 46, sweep: 420, sweepTime: 0.028, decay: 0.22, click: 0.5, drive: 4.5 },
  boxy: { pitch: 62, sweep: 90, sweepTime: 0.03, decay: 0.11, click: 0.6, drive: 1.8 },
  clicky: { pitch: 54, sweep: 300, sweepTime: 0.014, decay: 0.16, click: 0.8, drive: 2.4 },
  dusty: { pitch: 66, sweep: 110, sweepTime: 0.02, decay: 0.1, click: 0.35, drive: 2.8 },
  played: { pitch: 58, sweep: 60, sweepTime: 0.018, decay: 0.13, click: 0.7, drive: 1.2 },
} as const satisfies Record<string, KickCharacter>;
export type KickName = keyof typeof KICKS;

/** A kick: a sine that falls in pitch, saturated, with a click of filtered noise at its first sample. */
export function renderKick(character: KickCharacter, random: Random): Shot {
  const hiss = noise(random);
  const clickTone = createFilter(2600, 0.9);
  const boom = createFilter(30);
  let phase = 0.12;
  const scale = 1 / saturate(character.drive);
  const shot = monoShot(Math.min(0.7, character.decay * 4), (i) => {
    const frequency =
      character.pitch +
      character.sweep * decay(i, character.sweepTime) +
      3 * character.sweep * decay(i, 0.0035) * character.click;
    phase += frequency / RATE;
    const envelope = (1 - decay(i, 0.0003)) * decay(Math.max(0, i - 0.02 * RATE), character.decay);
    const body = saturate(character.drive * envelope * Math.sin(2 * Math.PI * phase)) * scale;
    const click = clickTone.band(hiss()) * decay(i, 0.0025) * character.click * 2.2;
    return boom.high(body + click);
  });
  return toPeak(shot, 1);
}
