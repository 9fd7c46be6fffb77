import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  arrangementTruth,
  randomArrangement,
  renderArrangement,
  type ArrangementTruth,
} from '../../../src/arranger/index.js';
import { FRONT_END_ID, type FrontEnd } from '../../../src/signal/index.js';
import { drawPlan, play } from '../../second-band/index.js';
import { inaudibleEvents } from './inaudible.js';
import { frontEndOf, pack, unpack } from '../song-front-ends.js';

/** Who plays: the arranger of the demo crate, or the band that nothing was tuned on. */
export const SETS = ['first', 'second'] as const;
export type SetName = (typeof SETS)[number];

export interface Drawn {
  readonly style: string;
  readonly truth: ArrangementTruth;
  /** Layer events that nobody can hear. */
  readonly inaudible: ArrangementTruth['events'];
  readonly frontEnd: FrontEnd;
}

type LayerEvent = ArrangementTruth['events'][number];

interface Kept {
  readonly style: string;
  readonly truth: ArrangementTruth;
  readonly inaudible: ArrangementTruth['events'];
}

/**
 * Draws and plays a track and listens to it. The samples go straight into the front end: no file, no codec.
 *
 * @param keep folder in which what was heard is kept between runs
 */
export function drawnTrack(set: SetName, seed: number, keep?: string): Drawn {
  const file = keep && join(keep, `${set}-${seed}.${FRONT_END_ID}`);
  if (file && existsSync(`${file}.json`)) {
    const kept = JSON.parse(readFileSync(`${file}.json`, 'utf8')) as Kept;
    // What is kept is what was heard; the words for it may have changed since.
    const known = set === 'first' ? { style: kept.style, ...labelled(seed, `${file}.inaudible`) } : kept;
    return { ...known, frontEnd: unpack(readFileSync(`${file}.bin`)) };
  }
  const { left, right, ...told } = set === 'first' ? firstSet(seed) : secondSet(seed);
  const frontEnd = frontEndOf(left, right);
  if (file) {
    mkdirSync(keep, { recursive: true });
    writeFileSync(`${file}.bin`, pack(frontEnd));
    writeFileSync(`${file}.part`, JSON.stringify(told));
    renameSync(`${file}.part`, `${file}.json`);
  }
  return { ...told, frontEnd };
}

type Sounding = Kept & { readonly left: Float32Array; readonly right: Float32Array };

function firstSet(seed: number): Sounding {
  const arrangement = randomArrangement(seed);
  const { left, right } = renderArrangement(arrangement);
  return { left, right, style: arrangement.style, ...labelled(seed) };
}

/** The truth of a track of the first set without what nobody can hear. @param file where that is kept */
function labelled(seed: number, file?: string): Omit<Kept, 'style'> {
  const arrangement = randomArrangement(seed);
  const truth = arrangementTruth(arrangement);
  const inaudible = file && existsSync(file) ? read(file) : inaudibleEvents(arrangement);
  if (file && !existsSync(file)) writeFileSync(file, JSON.stringify(inaudible));
  const unheard = (e: LayerEvent) =>
    inaudible.some((i) => i.layer === e.layer && i.change === e.change && i.bar === e.bar);
  return { truth: { ...truth, events: truth.events.filter((e) => !unheard(e)) }, inaudible };
}

function read(file: string): LayerEvent[] {
  return JSON.parse(readFileSync(file, 'utf8')) as LayerEvent[];
}

function secondSet(seed: number): Sounding {
  const plan = drawPlan(seed);
  const { left, right, truth } = play(plan);
  return { left, right, truth, inaudible: truth.inaudible, style: plan.style };
}
