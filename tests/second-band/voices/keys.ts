import type { Dice } from '../dice.js';
import { remembered, string, type Player } from './bass.js';
import { pitch, sound, tone } from './shapes.js';

/** Held and struck chords, and notes one after the other. */
export interface Keys {
  readonly held: Player;
  readonly struck: Player;
}

/** Drawbars of an organ as harmonics. */
const DRAWBARS = [0.5, 1, 1.5, 2, 3, 4];

function organ(d: Dice): Player {
  const stops = DRAWBARS.map(() => d.between(0, 1));
  return (note, seconds) => {
    const turn = 6.28318 * pitch(note);
    return sound(seconds + 0.02, (t) => {
      const on = Math.min(1, t / 0.006) * (t < seconds ? 1 : Math.max(0, 1 - (t - seconds) / 0.02));
      return on * DRAWBARS.reduce((s, h, k) => s + stops[k] * Math.sin(turn * h * t), 0);
    });
  };
}

/** An electric piano: a carrier modulated at 1 and at 14 times its pitch (Chowning 1973, frequency modulation). */
function tines(d: Dice): Player {
  const body = d.between(0.6, 1.6);
  const chime = d.between(0.1, 0.5);
  return (note, seconds) => {
    const turn = 6.28318 * pitch(note);
    return sound(seconds + 0.1, (t) => {
      const stop = t < seconds ? 1 : Math.max(0, 1 - (t - seconds) / 0.1);
      return stop * Math.exp(-t / 0.7) * Math.sin(turn * t + body * Math.exp(-t / 0.4) * Math.sin(turn * t) + chime * Math.exp(-t / 0.06) * Math.sin(turn * 14 * t)); // prettier-ignore
    });
  };
}

/** Many detuned saws: an ensemble of strings, or brass when it opens quickly. */
function ensemble(d: Dice, attack: number, bright: number): Player {
  const tunes = [-0.09, -0.03, 0.04, 0.1].map((c) => ({ c: c + d.between(-0.02, 0.02), p: d.roll() }));
  return (note, seconds) => {
    const release = Math.min(0.5, attack * 2 + 0.05);
    const raw = sound(seconds + release, (t) => {
      const swell = Math.min(1, t / attack) * (t < seconds ? 1 : Math.max(0, 1 - (t - seconds) / release));
      return swell * tunes.reduce((s, { c, p }) => s + 2 * ((pitch(note + c) * t + p) % 1) - 1, 0);
    });
    return tone(raw, 'low', bright, 0.8);
  };
}

/** Glass and bells: partials of a struck bar (Fletcher & Rossing 1998, bars free at both ends). */
function bells(): Player {
  const bar = [1, 2.756, 5.404];
  return (note, seconds) => {
    const turn = 6.28318 * pitch(note);
    return sound(seconds + 0.4, (t) => bar.reduce((s, m, k) => s + Math.sin(turn * m * t) * Math.exp(-t * (3 + 6 * k)) * 0.5 ** k, 0)); // prettier-ignore
  };
}

export function drawKeys(d: Dice, acoustic: boolean): Keys {
  const strum: Player = (note, seconds) => string(note, seconds + 0.2, 0.994, note * 7);
  const struck = d.one(acoustic ? [organ(d), tines(d), strum] : [organ(d), tines(d), bells(), ensemble(d, 0.012, d.between(1200, 3500))]); // prettier-ignore
  const held = d.one([ensemble(d, d.between(0.15, 0.5), d.between(900, 2600)), organ(d)]);
  return { held: remembered(held), struck: remembered(struck) };
}
