import type { Dice } from '../dice.js';
import { full, hiss, RATE, sound, tone } from './shapes.js';

/** Struck sounds of a track, each with a peak of 1. */
export interface Kit {
  readonly kick: Float32Array;
  readonly back: Float32Array;
  readonly ghost: Float32Array;
  readonly tick: Float32Array;
  readonly open: Float32Array;
  readonly extra: Float32Array;
  readonly crash: Float32Array;
  readonly toms: readonly Float32Array[];
  readonly clap: Float32Array;
}

/** Modes of a round membrane against its lowest: zeros of Bessel functions, e.g. Fletcher & Rossing 1998, table 3.1. */
const MEMBRANE = [1, 1.594, 2.136, 2.296, 2.653, 2.918];

function skin(hertz: number, decay: number, bend: number, stick: number, seed: number): Float32Array {
  const noise = hiss(seed);
  const phases = MEMBRANE.map(() => 0);
  return full(
    sound(decay * 5, (t) => {
      const f = hertz * (1 + bend * Math.exp(-t / 0.025));
      let v = 0;
      MEMBRANE.forEach((m, k) => {
        phases[k] += (6.28318 * f * m) / RATE;
        v += Math.sin(phases[k]) * Math.exp((-t / decay) * (1 + 0.9 * k)) * 0.6 ** k;
      });
      return v + stick * noise() * Math.exp(-t / 0.004);
    }),
  );
}

function machineKick(d: Dice): Float32Array {
  const base = d.between(43, 58);
  const sweep = d.between(120, 420);
  const fall = d.between(0.012, 0.035);
  const length = d.between(0.09, 0.22);
  const drive = d.between(1, 3);
  const snap = d.between(0, 0.5);
  const noise = hiss(d.whole(1, 1e6));
  let phase = 0;
  return full(
    sound(length * 3.5, (t) => {
      phase += (6.28318 * (base + sweep * Math.exp(-t / fall))) / RATE;
      return (
        Math.tanh(drive * Math.sin(phase)) * Math.exp(-((t / length) ** 1.4)) + snap * noise() * Math.exp(-t / 0.002)
      );
    }),
  );
}

function brushOf(seed: number, seconds: number, decay: number, low: number): Float32Array {
  const noise = hiss(seed);
  return full(
    tone(
      sound(seconds, (t) => noise() * Math.exp(-t / decay) * Math.min(1, t * 2500)),
      'high',
      low,
      0.8,
    ),
  );
}

/** Struck metal: phase-modulated tones that bear no simple ratio, high-passed. */
function metal(d: Dice, seconds: number, decay: number): Float32Array {
  const parts = Array.from({ length: 5 }, () => ({ f: d.between(2100, 6900), m: d.between(1.3, 2.9) }));
  const noise = hiss(d.whole(1, 1e6));
  const raw = sound(seconds, (t) => {
    let v = 0.7 * noise();
    for (const { f, m } of parts) v += Math.sin(6.28318 * f * t + 2.2 * Math.sin(6.28318 * f * m * t));
    return v * (Math.exp(-t / decay) + 0.15 * Math.exp(-t / (decay * 0.2)));
  });
  return full(tone(raw, 'high', d.between(4800, 6800), 0.9));
}

function snare(d: Dice, acoustic: boolean): Float32Array {
  const shell = skin(acoustic ? d.between(170, 215) : d.between(150, 250), d.between(0.04, 0.09), 0.25, 0, 3);
  const rattle = brushOf(d.whole(1, 1e6), 0.4, d.between(0.05, 0.13), d.between(900, 2400));
  const mix = d.between(0.35, 0.8);
  return full(rattle.map((v, i) => mix * v + (1 - mix) * (shell[i] ?? 0)));
}

function clapping(d: Dice): Float32Array {
  const noise = hiss(d.whole(1, 1e6));
  const gaps = [0, d.between(0.008, 0.012), d.between(0.018, 0.024)];
  const ring = d.between(0.05, 0.12);
  const raw = sound(0.4, (t) => noise() * (gaps.reduce((s, g) => s + (t >= g && t < g + 0.006 ? 0.8 : 0), 0) + (t > 0.026 ? Math.exp(-(t - 0.026) / ring) : 0))); // prettier-ignore
  return full(tone(raw, 'band', d.between(1000, 1800), 1.1));
}

/** The first stroke of a clap is when it is heard; the sounds here all start at their first sample. */
export function drawKit(d: Dice, acoustic: boolean): Kit {
  const clap = clapping(d);
  const back = acoustic || d.happens(0.5) ? snare(d, acoustic) : clap;
  const low = d.between(75, 105);
  return {
    kick: acoustic ? skin(d.between(52, 68), d.between(0.07, 0.13), d.between(0.3, 1), 0.35, 11) : machineKick(d),
    back,
    ghost: tone(back.slice(), 'low', 3000),
    tick: metal(d, 0.12, d.between(0.015, 0.035)),
    open: metal(d, 0.5, d.between(0.09, 0.2)),
    extra: d.happens(0.5) ? brushOf(d.whole(1, 1e6), 0.16, d.between(0.02, 0.05), 3500) : skin(d.between(190, 420), d.between(0.03, 0.08), 0.1, 0.1, 5), // prettier-ignore
    crash: metal(d, 2.4, d.between(0.5, 0.9)),
    toms: [2.2, 1.6, 1.25, 1].map((m) => skin(low * m, 0.13, 0.3, 0.15, 7)),
    clap,
  };
}
