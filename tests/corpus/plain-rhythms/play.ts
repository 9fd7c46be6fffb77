import { randomNumbers } from '../../../src/units/index.js';
import type { Pattern } from './patterns.js';
import { decay, drawer, hit, hold, type Chance } from './sounds.js';

/** A rhythm played for most of a minute, with its exact truth. */
export interface PlainRhythm {
  readonly samples: Float32Array;
  readonly bpm: number;
  readonly beatsPerBar: number;
  readonly beats: readonly number[];
  readonly downbeats: readonly number[];
  /** How many beats later the ones could be with the same sound: [0] where something tells them. */
  readonly alike: readonly number[];
}

const RATE = 44_100;
const SECONDS = 52;
const A4 = 440;

/**
 * Plays a pattern with drawn sounds, from a drawn place in its bar, alone or with bass, chords and layers that come and go
 * with eight bars.
 * @param seed of everything that is drawn
 */
export function playPattern(pattern: Pattern, seed: number): PlainRhythm {
  const chance = randomNumbers(seed);
  const between = drawer(chance);
  const [slow, fast] = pattern.tempo;
  const bpm = Math.round(between(slow, fast) * 2) / 2;
  const period = 60 / bpm;
  const lead = between(0.02, 2);
  const { beatsPerBar, stepsPerBeat } = pattern;
  const skipped = Math.floor(chance() * beatsPerBar);
  const count = Math.floor((SECONDS - lead) / period);
  const beats = Array.from({ length: count }, (_, i) => lead + i * period);
  const place = (beat: number) => (beat + skipped) % beatsPerBar;
  const barOf = (beat: number) => Math.floor((beat + skipped) / beatsPerBar);
  const out = new Float32Array(Math.ceil((SECONDS + 1) * RATE));
  const kit = drawKit(chance);
  const harmony = drawHarmony(chance);
  const drawn = () => (harmony.alone ? () => true : drawLayer(chance));
  const layers = { hat: drawn(), snare: drawn(), bass: drawn(), chords: drawn() };
  beats.forEach((start, beat) => {
    const bar = barOf(beat);
    for (let s = 0; s < stepsPerBeat; s++) {
      const step = place(beat) * stepsPerBeat + s;
      const time = start + (s / stepsPerBeat) * period + kit.loose * (chance() - 0.5);
      const strikes = (row: readonly number[]) => row.includes(step);
      if (strikes(pattern.kick)) kit.kick(out, time, 1);
      if (strikes(pattern.snare) && layers.snare(bar)) kit.snare(out, time, 0.8 + 0.2 * chance());
      if (strikes(pattern.hat) && layers.hat(bar)) kit.hat(out, time, step % 2 === 0 ? 1 : 0.6);
      if (harmony.bass > 0 && strikes(pattern.bass) && layers.bass(bar))
        hold(out, time, (0.9 * period) / stepsPerBeat, harmony.root(bar), harmony.bass, 0.4);
    }
    if (place(beat) > 0 || harmony.chords === 0) return;
    const length = Math.min(beatsPerBar * period, SECONDS - start);
    if (pattern.bass.length === 0 && layers.bass(bar)) hold(out, start, length, harmony.root(bar), harmony.bass, 0.4);
    if (layers.chords(bar))
      for (const n of [12, harmony.third, 19])
        hold(out, start, length, harmony.root(bar) * 2 ** (n / 12), harmony.chords, 0.2);
  });
  const downbeats = beats.filter((_, beat) => place(beat) === 0);
  return { samples: out, bpm, beatsPerBar, beats, downbeats, alike: harmony.alone ? rotations(pattern) : [0] };
}

/** Shifts in beats that leave every drum of a pattern where it is. */
function rotations({ beatsPerBar, stepsPerBeat, kick, snare, hat, bass }: Pattern): number[] {
  const steps = beatsPerBar * stepsPerBeat;
  return Array.from({ length: beatsPerBar }, (_, shift) => shift).filter((shift) =>
    [kick, snare, hat, bass].every((row) => row.every((s) => row.includes((s + shift * stepsPerBeat) % steps))),
  );
}

function drawKit(chance: Chance) {
  const between = drawer(chance);
  const base = between(42, 62);
  const sweep = between(0.5, 4);
  const click = between(0, 0.4);
  const kickDecay = between(9, 28);
  const tone = between(160, 240);
  const snareDecay = between(12, 40);
  const snareLevel = between(0.12, 0.35);
  const hatDecay = between(25, 90);
  const hatLevel = between(0.04, 0.25);
  return {
    /** Spread of the strokes (s): a machine has none. */
    loose: chance() < 0.7 ? 0 : between(0.002, 0.012),
    kick: (out: Float32Array, time: number, level: number) =>
      hit(out, time, 0.4, (t) => {
        const body = Math.sin(2 * Math.PI * (base * t + sweep * (1 - Math.exp(-45 * t))));
        return level * (0.5 * decay(t, kickDecay) * body + click * decay(t, 300) * (chance() - 0.5));
      }),
    snare: (out: Float32Array, time: number, level: number) =>
      hit(
        out,
        time,
        0.25,
        (t) => level * snareLevel * decay(t, snareDecay) * (2 * chance() - 1 + 0.5 * Math.sin(2 * Math.PI * tone * t)),
      ),
    hat: (out: Float32Array, time: number, level: number) => {
      let before = 0;
      hit(out, time, 0.15, (t) => {
        const noise = 2 * chance() - 1;
        const high = noise - before;
        before = noise;
        return level * hatLevel * decay(t, hatDecay) * high;
      });
    },
  };
}

function drawHarmony(chance: Chance) {
  const alone = chance() < 0.35;
  const barsAChord = [1, 1, 2, 4][Math.floor(chance() * 4)];
  const roots = [0, 5, 7, 3, -2, -4].sort(() => chance() - 0.5).slice(0, 2 + Math.floor(chance() * 3));
  const tonic = 36 + Math.floor(chance() * 8);
  return {
    alone,
    bass: alone ? 0 : 0.08 + 0.2 * chance(),
    chords: alone || chance() < 0.3 ? 0 : 0.02 + 0.06 * chance(),
    third: chance() < 0.5 ? 15 : 16,
    root: (bar: number) => A4 * 2 ** ((tonic + roots[Math.floor(bar / barsAChord) % roots.length] - 69) / 12),
  };
}

/** A layer plays throughout, or in every other eight bars. */
function drawLayer(chance: Chance): (bar: number) => boolean {
  if (chance() < 0.5) return () => true;
  const first = Math.floor(chance() * 2);
  return (bar) => Math.floor(bar / 8) % 2 === first;
}
