import type { Bar, Clock } from '../clock.js';
import type { Dice } from '../dice.js';
import type { Plan } from '../plan.js';
import { STYLES, type Style } from '../styles.js';
import { RATE } from '../voices/shapes.js';

export const STEMS = ['kick', 'bass', 'drums', 'tops', 'keys', 'voice', 'effects'] as const;
export type Stem = (typeof STEMS)[number];
export type Stems = Readonly<Record<Stem, Float32Array>>;

/** Where the musicians stand: the track, its clock and what they play into. */
export interface Stage {
  readonly plan: Plan;
  readonly style: Style;
  readonly clock: Clock;
  readonly d: Dice;
  readonly stems: Stems;
  /** Times of kick strokes, for what gives way to them. */
  readonly kicks: number[];
  /** Puts a sound at a place of the bar given in sixteenths, swung and, with a live drummer, never quite on it. */
  put(stem: Stem, shot: Float32Array, bar: Bar, step: number, gain: number): void;
  /** The time of a place in sixteenths of a bar. */
  time(bar: Bar, step: number): number;
}

export function stageFor(plan: Plan, clock: Clock, d: Dice): Stage {
  const length = Math.ceil((clock.beats.at(-1)! + 2.2) * RATE);
  const stems = Object.fromEntries(STEMS.map((s) => [s, new Float32Array(length)])) as Record<Stem, Float32Array>;
  const loose = plan.drift > 0 ? 0.004 : plan.acoustic ? 0.0015 : 0;
  const time = (bar: Bar, step: number) => {
    const pair = Math.floor(step / 2) * 2;
    const swung = step - pair >= 1 ? pair + plan.swing * 2 + (step - pair - 1) * 2 * (1 - plan.swing) : step;
    return clock.at(bar.firstBeat + swung / 4);
  };
  return {
    plan,
    style: STYLES[plan.style],
    clock,
    d,
    stems,
    kicks: [],
    time,
    put: (stem, shot, bar, step, gain) => {
      const off = loose * (d.roll() + d.roll() + d.roll() - 1.5) * 2;
      const from = Math.max(0, Math.round((time(bar, step) + off) * RATE));
      const into = stems[stem];
      const end = Math.min(shot.length, into.length - from);
      for (let i = 0; i < end; i++) into[from + i] += gain * shot[i];
    },
  };
}
