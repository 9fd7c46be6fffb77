import { isAudible } from './audible.js';
import { clockOf } from './clock.js';
import { dice } from './dice.js';
import { mixDown } from './mix/desk.js';
import { master } from './mix/master.js';
import type { Plan } from './plan.js';
import { playDrums } from './playing/drums.js';
import { playEarly } from './playing/early.js';
import { playEffects } from './playing/effects.js';
import { singer } from './playing/song.js';
import { stageFor } from './playing/stage.js';
import { playBass, playKeys } from './playing/tonal.js';
import { truthOf, type BandTruth, type LayerEvent } from './truth.js';
import { drawBass } from './voices/bass.js';
import { drawKit } from './voices/drums.js';
import { drawKeys } from './voices/keys.js';
import { RATE } from './voices/shapes.js';
import { drawSinger } from './voices/singer.js';

export { drawPlan, type Draw } from './draw.js';
export type { Plan } from './plan.js';
export type { BandTruth } from './truth.js';

/** A track as played: two channels and exactly what is in it. */
export interface Played {
  readonly sampleRate: number;
  readonly left: Float32Array;
  readonly right: Float32Array;
  readonly truth: BandTruth;
}

/** Plays a plan. The same plan gives the same samples. */
export function play(plan: Plan): Played {
  const d = dice(plan.seed ^ 0x1f83d9);
  const clock = clockOf(plan);
  const stage = stageFor(plan, clock, d);
  const kit = drawKit(d, plan.acoustic);
  const bass = drawBass(d, plan.acoustic);
  const keys = drawKeys(d, plan.acoustic);
  const voice = drawSinger(d);
  const sings = singer(stage, voice);
  clock.bars.forEach((bar, i) => {
    const next = clock.bars[i + 1];
    playDrums(stage, kit, bar, next);
    playBass(stage, bass, bar);
    playKeys(stage, keys, bar);
    sings(bar);
    if (next) playEarly(stage, bar, next, bass, keys, voice);
    playEffects(stage, kit, bar, next);
  });
  const { left, right, stems } = mixDown(stage, d);
  const twoBars = (8 * 60) / plan.bpm;
  const hears = ({ time, layer, change }: LayerEvent): boolean =>
    change === 'enters' ? isAudible(stems, layer, time, time + twoBars) : isAudible(stems, layer, time - twoBars, time);
  const truth = truthOf(plan, clock, remembering(hears));
  master(left, right, d);
  return { sampleRate: RATE, left, right, truth };
}

function remembering(hears: (event: LayerEvent) => boolean): (event: LayerEvent) => boolean {
  const known = new Map<LayerEvent, boolean>();
  return (event) => known.get(event) ?? known.set(event, hears(event)).get(event)!;
}
