import type { Layer } from '../units/index.js';
import type { Box } from './geometry.js';

/** The figures that a layer's strip can be filled with. */
export const HATCH_NAMES = ['solid', 'rails', 'dots', 'slants', 'wave', 'frame', 'ticks'] as const;
export type HatchName = (typeof HATCH_NAMES)[number];

/** A figure for every layer, no two alike. */
export type LayerHatches = Readonly<Record<Layer, HatchName>>;

/**
 * Each layer has a figure of its own, so that they are told apart without colour and in print of one ink: the kick is
 * solid, the bass two rails, percussion dots, harmony slanted lines, the voice a wave.
 */
export const HATCHES: LayerHatches = {
  kick: 'solid',
  bass: 'rails',
  percussion: 'dots',
  harmony: 'slants',
  voice: 'wave',
};

/** The same with a hollow kick and bass as ticks: about a third of the ink. */
export const INK_SAVING_HATCHES: LayerHatches = { ...HATCHES, kick: 'frame', bass: 'ticks' };

/** A drawn figure in path data (SVG 1.1 commands M, L, H, V, Z), filled or stroked. */
export interface Figure {
  readonly d: string;
  /** Stroke width; null fills the figure. */
  readonly stroke: number | null;
  readonly round: boolean;
  /** Lengths of dash and gap of a broken line. */
  readonly dash?: readonly [number, number];
}

/** Two decimals are a hundredth of a point or of a pixel. */
export const short = (n: number): string => `${Math.round(n * 100) / 100}`;

/** A strip filled with a figure, in phase with the left edge `origin`, so that neighbouring strips join. */
export function hatch(name: HatchName, box: Box, lane: number, origin: number): readonly Figure[] {
  switch (name) {
    case 'solid':
      return [solid(box)];
    case 'rails':
      return rails(box);
    case 'dots':
      return [dots(box, lane, origin)];
    case 'slants':
      return [slants(box, lane, origin)];
    case 'wave':
      return [wave(box, lane, origin)];
    case 'frame':
      return [frame(box, lane)];
    case 'ticks':
      return [ticks(box, lane, origin)];
  }
}

/** The sign for a layer heard faintly or now and then: a broken line in the middle of its lane. */
export function faintLine(box: Box, lane: number): Figure {
  const y = box.y + box.height / 2;
  const dash = lane * 0.6;
  let d = '';
  for (let x = box.x + dash / 2; x + dash <= box.x + box.width; x += dash * 2)
    d += `M${short(x)} ${short(y)}H${short(x + dash)}`;
  return { d, stroke: lane * 0.14, round: false };
}

function solid({ x, y, width, height }: Box): Figure {
  return { d: rectangle(x, y, width, height), stroke: null, round: false };
}

export function rectangle(x: number, y: number, width: number, height: number): string {
  return `M${short(x)} ${short(y)}H${short(x + width)}V${short(y + height)}H${short(x)}Z`;
}

function rails({ x, y, width, height }: Box): readonly Figure[] {
  const thick = height * 0.36;
  return [
    { d: rectangle(x, y, width, thick), stroke: null, round: false },
    { d: rectangle(x, y + height - thick, width, thick), stroke: null, round: false },
  ];
}

function frame({ x, y, width, height }: Box, lane: number): Figure {
  const stroke = lane * 0.16;
  const half = stroke / 2;
  return { d: rectangle(x + half, y + half, width - stroke, height - stroke), stroke, round: false };
}

function ticks(box: Box, lane: number, origin: number): Figure {
  const pitch = lane * 0.5;
  const [top, bottom] = [short(box.y), short(box.y + box.height)];
  let d = '';
  for (const x of steps(box, pitch, origin + pitch / 2, 0)) d += `M${short(x)} ${top}V${bottom}`;
  return { d, stroke: lane * 0.12, round: false };
}

/** Length of a dash that is to be a dot; there are pens that do not take 0. */
const DOT = 0.01;

function dots(box: Box, lane: number, origin: number): Figure {
  const pitch = lane * 0.7;
  const at = steps(box, pitch, origin + pitch / 2, lane * 0.25);
  if (at.length === 0) return { d: '', stroke: lane * 0.42, round: true };
  // One broken line with round ends: a dash of no length is a dot.
  const d = `M${short(at[0])} ${short(box.y + box.height / 2)}H${short(at.at(-1)! + DOT)}`;
  return { d, stroke: lane * 0.42, round: true, dash: [DOT, pitch - DOT] };
}

function slants(box: Box, lane: number, origin: number): Figure {
  const pitch = lane * 0.55;
  let d = '';
  for (const x of steps({ ...box, x: box.x - box.height, width: box.width + box.height }, pitch, origin, 0)) {
    const from = Math.max(x, box.x);
    const to = Math.min(x + box.height, box.x + box.width);
    if (to - from < 0.05) continue;
    const bottom = box.y + box.height;
    d += `M${short(from)} ${short(bottom - (from - x))}L${short(to)} ${short(bottom - (to - x))}`;
  }
  return { d, stroke: lane * 0.13, round: false };
}

function wave(box: Box, lane: number, origin: number): Figure {
  const half = lane * 0.75;
  const margin = lane * 0.15;
  const level = (x: number) => {
    const phase = ((((x - origin) / half) % 2) + 2) % 2;
    const up = phase < 1 ? phase : 2 - phase;
    return box.y + box.height - margin - up * (box.height - 2 * margin);
  };
  const end = box.x + box.width;
  let d = `M${short(box.x)} ${short(level(box.x))}`;
  for (const x of steps(box, half, origin, 0)) d += `L${short(x)} ${short(level(x))}`;
  d += `L${short(end)} ${short(level(end))}`;
  return { d, stroke: lane * 0.24, round: false };
}

/** Multiples of a pitch from an origin that lie inside a box, a margin kept at both ends. */
function steps(box: Box, pitch: number, origin: number, margin: number): readonly number[] {
  const first = Math.ceil((box.x + margin - origin) / pitch - 1e-9);
  const last = Math.floor((box.x + box.width - margin - origin) / pitch + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => origin + (first + i) * pitch);
}
