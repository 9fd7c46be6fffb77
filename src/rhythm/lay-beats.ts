import type { FrontEnd } from '../signal/index.js';
import type { Bpm, Seconds, Steadiness } from '../units/index.js';
import { heardBeats } from './heard-beats.js';
import { fitLine, median, type LineFit } from './line-fit.js';
import { fitPieces, type HeardBeat, type Piece } from './piecewise.js';
import { meetingPieces } from './meeting-pieces.js';
import { smoothCurve } from './smooth-curve.js';
import { fitSteady } from './steady-fit.js';
import { transientsNear } from './transients.js';

/** A whole-number tempo is taken when the fitted one is this close (BPM). */
const SNAP: Bpm = 0.02;
/** A steady grid may differ from what is heard by this much, at any window of a piecewise one. */
const MATERIAL: Seconds = 0.01;
/** Heard beats of a window that is held against the line, and how close together they must lie to speak (s). */
const WINDOW_BEATS = 12;
const CLOSE: Seconds = 0.003;
/** Stiffness of a drifting grid: changes slower than about 15 beats are followed. */
const STIFFNESS = 30;
/** Noise of a heard beat, at least. */
const NOISE: Seconds = 0.001;

/** Beats at their exact times. Numbers are those of the expected beats; they may be continued at either end. */
export interface LaidBeats {
  readonly steadiness: Steadiness;
  /** Time of any beat number, also outside the expected ones. */
  readonly timeOf: (beat: number) => Seconds;
  /** Stretches of one tempo: from which beat on. */
  readonly pieces: readonly { readonly from: number; readonly to: number; readonly bpm: Bpm }[];
  /** Median of |heard − laid| (s). */
  readonly spread: Seconds;
  readonly heard: number;
}

/**
 * Lays beats on the transients heard near where they are expected: on one line if that will do, else piece by piece, else
 * beat by beat on a smooth course.
 * @param steady whether the expected beats come from one unbroken grid
 */
export function layBeats(frontEnd: FrontEnd, expected: ArrayLike<Seconds>, steady: boolean): LaidBeats {
  const n = expected.length;
  const heard = heardBeats(frontEnd, expected, steady ? undefined : 0.012);
  const line = steady ? (fitSteady(transientsNear(frontEnd, expected), expected) ?? lineThrough(expected)) : null;
  if (line && (heard.length < 24 || !departs(heard, line))) return layLine(snap(line, heard, n), heard, n);
  const noise = Math.max(NOISE, localNoise(heard, expected));
  let pieces = merged(fitPieces(heard, n, noise));
  if (pieces.length === 1 && line) return layLine(snap(line, heard, n), heard, n);
  if (pieces.length > 0 && pieces.length <= Math.max(3, n / 80)) {
    // Near a change the first guess may be too far off for its transients: look again along the pieces.
    const again = heardBeats(
      frontEnd,
      Float64Array.from({ length: n }, (_, b) => pieceTime(pieces, b)),
    );
    const refined = merged(fitPieces(again, n, noise));
    if (refined.length > 0 && refined.length <= pieces.length) pieces = refined;
    return layPieces(meetingPieces(pieces, again), again);
  }
  return layDrift(heard, expected);
}

/** The line through the expected beats themselves, for music without transients. */
function lineThrough(expected: ArrayLike<Seconds>): LineFit {
  return fitLine(Array.from(expected, (time, beat) => ({ beat, time })))!;
}

/**
 * Whether whole windows of heard beats lie off the line, in one direction, by more than MATERIAL. Music that goes off and
 * comes back to the line at one blow, more than once, has two instruments that strike a little apart, and no other tempo.
 */
function departs(heard: readonly HeardBeat[], line: LineFit): boolean {
  const middles: number[] = [];
  for (let i = 0; i + WINDOW_BEATS <= heard.length; i += WINDOW_BEATS) {
    const residuals = heard.slice(i, i + WINDOW_BEATS).map((h) => h.time - line.offset - line.period * h.beat);
    const middle = median(residuals);
    const scatter = median(residuals.map((r) => Math.abs(r - middle)));
    middles.push(scatter < CLOSE ? middle : 0);
  }
  const off = middles.filter((m) => Math.abs(m) > MATERIAL).length;
  const blows = middles.filter((m, i) => {
    const before = middles[i - 1] ?? m;
    return Math.abs(m - before) > MATERIAL && Math.min(Math.abs(m), Math.abs(before)) < CLOSE;
  }).length;
  return off >= 3 && off > 0.15 * middles.length && blows < 2;
}

function snap(line: LineFit, heard: readonly HeardBeat[], beats: number): LineFit {
  const whole = Math.round(60 / line.period);
  if (Math.abs(60 / line.period - whole) > SNAP) return line;
  const period = 60 / whole;
  // Turned about the middle of what was heard; refused when either end would move noticeably.
  const middle = heard.length > 0 ? median(heard.map((h) => h.beat)) : beats / 2;
  const offset = line.offset + (line.period - period) * middle;
  const moved = Math.abs(line.period - period) * (beats / 2);
  return moved <= Math.max(0.003, 2 * line.spread) ? { ...line, period, offset } : line;
}

function layLine(line: LineFit, heard: readonly HeardBeat[], n: number): LaidBeats {
  return {
    steadiness: 'constant',
    timeOf: (b) => line.offset + line.period * b,
    pieces: [{ from: 0, to: n, bpm: 60 / line.period }],
    spread: line.spread,
    heard: heard.length,
  };
}

function layPieces(pieces: readonly Piece[], heard: readonly HeardBeat[]): LaidBeats {
  const tempos = pieces.map((p) => 60 / p.period);
  const same = Math.max(...tempos) / Math.min(...tempos) < 1.0005;
  return {
    steadiness: pieces.length === 1 || same ? 'constant' : 'steps',
    timeOf: (b) => pieceTime(pieces, b),
    pieces: pieces.map((p) => ({ from: p.from, to: p.to, bpm: 60 / p.period })),
    spread: median(heard.map((h) => Math.abs(h.time - pieceTime(pieces, h.beat)))),
    heard: heard.length,
  };
}

function layDrift(heard: readonly HeardBeat[], expected: ArrayLike<Seconds>): LaidBeats {
  const n = expected.length;
  const residual = new Array<number>(n).fill(0);
  const weight = new Array<number>(n).fill(0.02);
  for (const h of heard) {
    residual[h.beat] = h.time - expected[h.beat];
    weight[h.beat] = 1;
  }
  const smooth = smoothCurve(residual, weight, STIFFNESS);
  const times = Float64Array.from({ length: n }, (_, b) => expected[b] + smooth[b]);
  for (let b = 1; b < n; b++) times[b] = Math.max(times[b], times[b - 1] + 0.05);
  const first = (times[Math.min(8, n - 1)] - times[0]) / Math.min(8, n - 1);
  const last = (times[n - 1] - times[Math.max(0, n - 9)]) / Math.min(8, n - 1);
  const middle = median(Array.from({ length: n - 1 }, (_, b) => times[b + 1] - times[b]));
  return {
    steadiness: 'drifting',
    timeOf: (b) => (b < 0 ? times[0] + b * first : b >= n ? times[n - 1] + (b - n + 1) * last : times[b]),
    pieces: [{ from: 0, to: n, bpm: 60 / middle }],
    spread: median(heard.map((h) => Math.abs(h.time - times[h.beat]))),
    heard: heard.length,
  };
}

function pieceTime(pieces: readonly Piece[], beat: number): Seconds {
  const piece = pieces.find((p) => beat < p.to) ?? pieces[pieces.length - 1];
  return piece.offset + piece.period * beat;
}

/** Joins neighbours that are one line to the ear: less than 0.02 % apart in tempo and 5 ms where they meet. */
function merged(pieces: readonly Piece[]): Piece[] {
  const out: Piece[] = [];
  for (const p of pieces) {
    const last = out[out.length - 1];
    const gap = last ? Math.abs(last.offset + last.period * p.from - p.offset - p.period * p.from) : Infinity;
    if (last && Math.abs(last.period / p.period - 1) < 0.0002 && gap < 0.005) {
      const [a, b] = last.count >= p.count ? [last, p] : [p, last];
      out[out.length - 1] = {
        ...a,
        from: last.from,
        to: p.to,
        count: a.count + b.count,
        squares: a.squares + b.squares,
      };
    } else out.push(p);
  }
  return out;
}

/** Typical scatter of a heard beat against the mean of its neighbours. */
function localNoise(heard: readonly HeardBeat[], expected: ArrayLike<Seconds>): Seconds {
  const r = heard.map((h) => h.time - expected[h.beat]);
  const d: number[] = [];
  for (let i = 1; i + 1 < r.length; i++) d.push(Math.abs(r[i] - (r[i - 1] + r[i + 1]) / 2));
  return (1.4826 * median(d)) / Math.sqrt(1.5);
}
