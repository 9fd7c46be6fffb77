import { steps } from './steps.js';
import type { Step } from './steps.js';

/** Parts of the percussion, which join one after another. */
export const PERCUSSION_PARTS = ['closed', 'open', 'back', 'ghost', 'skins', 'shaker', 'ride'] as const;
export type PercussionPart = (typeof PERCUSSION_PARTS)[number];

/** A bar of drums: what each part plays. `skins` is drawn from the seed. */
export type Groove = Readonly<Record<'kick' | Exclude<PercussionPart, 'skins'>, readonly Step[]>>;

export type GrooveName = 'floor' | 'broken' | 'breaks' | 'played' | 'three';

/** Every second beat from the second one on. */
const backbeats = (beats: number): Step[] => steps(beats, 1, 2, 1);
/** Sixteenths, the beat soft and the off-beat accented. */
const sixteenths = (beats: number): Step[] => [
  ...steps(beats, 0, 1, 0.55),
  ...steps(beats, 0.25, 0.5, 0.4),
  ...steps(beats, 0.5, 1, 0.9),
];

/** Ways with the hats, of which each track has one: sixteenths, eighths, off-beats only, or a gallop. */
const HATS: readonly ((beats: number) => Step[])[] = [
  sixteenths,
  (beats) => [...steps(beats, 0, 1, 0.6), ...steps(beats, 0.5, 1, 0.9)],
  (beats) => [...steps(beats, 0.5, 1, 0.9), ...steps(beats, 0.75, 1, 0.5)],
  (beats) => [...steps(beats, 0, 1, 0.6), ...steps(beats, 0.5, 1, 0.8), ...steps(beats, 0.75, 1, 0.55)],
];
/** Open hats on each off-beat, on every other one, or late in the bar. */
const OPENS: readonly ((beats: number) => Step[])[] = [
  (beats) => steps(beats, 0.5, 1, 0.9),
  (beats) => steps(beats, 1.5, 2, 0.9),
  (beats) => [
    [beats - 1.5, 0.7],
    [beats - 0.5, 0.9],
  ],
];

const GROOVES: Record<GrooveName, (beats: number, variation: number, habit: number) => Groove> = {
  floor: (beats, _variation, habit) => ({
    kick: steps(beats, 0, 1, 1),
    back: backbeats(beats),
    closed: HATS[habit % HATS.length](beats),
    open: OPENS[habit % OPENS.length](beats),
    ghost: [
      [1.75, 0.3],
      [beats - 0.25, 0.45],
    ],
    shaker: [...steps(beats, 0, 0.5, 0.6), ...steps(beats, 0.25, 0.5, 1)],
    ride: steps(beats, 0, 0.5, 0.8),
  }),
  broken: (beats, variation) => ({
    kick:
      variation % 2 === 0
        ? [
            [0, 1],
            [2.5, 0.95],
          ]
        : [
            [0, 1],
            [1.75, 0.7],
            [2.5, 0.95],
          ],
    back: backbeats(beats),
    closed: [...steps(beats, 0, 0.5, 0.6), ...steps(beats, 0.75, 1, 0.5)],
    open: [
      [1.5, 0.8],
      [3.5, 0.8],
    ],
    ghost: [
      [1.75, 0.35],
      [2.25, 0.3],
      [3.75, 0.4],
    ],
    shaker: steps(beats, 0.25, 0.5, 0.9),
    ride: steps(beats, 0.5, 1, 0.8),
  }),
  breaks: (beats, variation) => ({
    kick:
      variation % 2 === 0
        ? [
            [0, 1],
            [2.5, 0.95],
          ]
        : [
            [0, 1],
            [0.5, 0.6],
            [2.5, 0.95],
          ],
    back: backbeats(beats),
    closed: [...steps(beats, 0, 0.5, 0.75), [1.75, 0.4], [3.25, 0.4]],
    open: [[variation % 4 === 3 ? 3.5 : 1.5, 0.7]],
    ghost: [
      [1.75, 0.35],
      [2.25, 0.4],
      [3.75, 0.45],
    ],
    shaker: steps(beats, 0.5, 1, 1),
    ride: steps(beats, 0, 1, 0.9),
  }),
  played: (beats, variation) => ({
    kick: [...steps(beats, 0, 1, 1), ...(variation % 4 === 3 ? ([[beats - 0.5, 0.6]] as Step[]) : [])],
    back: backbeats(beats),
    closed: [...steps(beats, 0, 0.5, 0.8), ...(variation % 2 === 1 ? steps(beats, 0.75, 2, 0.4) : [])],
    open: steps(beats, 0.5, variation % 2 === 0 ? 2 : 1, 0.8),
    ghost: [
      [0.75, 0.22],
      [1.75, 0.3],
      [2.25, 0.25],
    ],
    shaker: steps(beats, 0, 0.25, 0.7),
    ride: steps(beats, 0, 0.5, 0.75),
  }),
  three: (beats, variation) => ({
    kick: [...steps(beats, 0, 1, 1), ...(variation % 4 === 3 ? ([[beats - 0.5, 0.7]] as Step[]) : [])],
    back: steps(beats, 2, 3, 1),
    closed: sixteenths(beats),
    open: steps(beats, 0.5, 1, 0.85),
    ghost: [
      [1.5, 0.35],
      [2.75, 0.35],
    ],
    shaker: [...steps(beats, 0, 0.5, 0.6), ...steps(beats, 0.25, 0.5, 1)],
    ride: steps(beats, 1, 1, 0.8),
  }),
};

/** The groove for a bar; `variation` is its place in the phrase (from 0), `habit` a
 * number that stays for the track. Strokes past the end of the bar are left out. */
export function grooveOf(name: GrooveName, beats: number, variation: number, habit: number, halfTime: boolean): Groove {
  const whole = GROOVES[name](beats, variation, habit);
  const groove = halfTime
    ? { ...whole, kick: [[0, 1], variation % 2 === 0 ? [2.75, 0.5] : [1.5, 0.8]] as Step[], back: [[2, 1]] as Step[] }
    : whole;
  const cut = (list: readonly Step[]): Step[] => list.filter(([offset]) => offset < beats - 1e-6);
  return Object.fromEntries(Object.entries(groove).map(([part, list]) => [part, cut(list)])) as unknown as Groove;
}
