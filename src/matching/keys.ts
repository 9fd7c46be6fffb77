import { circlePlace, PITCH_CLASSES, type NamedKey } from '../units/index.js';
import type { KeyRelation } from '../wording/index.js';

/** How B's key stands to A's. @public */
export interface KeyMeeting {
  readonly relation: KeyRelation;
  /** Semitones from A's tonic up to B's, −5 to 6. */
  readonly semitones: number;
  /** Steps on the circle of fifths between their sets of notes, 0 to 6. */
  readonly fifths: number;
  /** How far B is out of tune with A, −50 to 50. */
  readonly cents: number;
}

/**
 * How two keys go together, in plain names and the circle of fifths.
 * @public
 * @param shift semitones by which B is moved against A, e.g. by a tempo change with key lock off; may be a fraction
 * @example meetKeys({ tonic: 'A', mode: 'minor' }, { tonic: 'E', mode: 'minor' }).relation // 'fifth'
 */
export function meetKeys(a: NamedKey, b: NamedKey, shift = 0): KeyMeeting {
  const whole = Math.round(shift);
  const cents = Math.round((shift - whole) * 100) || 0;
  const up = (((PITCH_CLASSES.indexOf(b.tonic) + whole - PITCH_CLASSES.indexOf(a.tonic)) % 12) + 12) % 12;
  const moved = { tonic: PITCH_CLASSES[(PITCH_CLASSES.indexOf(a.tonic) + up) % 12], mode: b.mode };
  const apart = Math.abs(circlePlace(a) - circlePlace(moved));
  const fifths = Math.min(apart, 12 - apart);
  return { relation: relationOf(a, moved, up, fifths), semitones: up > 6 ? up - 12 : up, fifths, cents };
}

function relationOf(a: NamedKey, b: NamedKey, up: number, fifths: number): KeyRelation {
  if (up === 0) return a.mode === b.mode ? 'same' : 'parallel';
  if (fifths === 0) return 'relative';
  return fifths === 1 && a.mode === b.mode ? 'fifth' : 'other';
}

/**
 * How well two keys sound together, 0 to 1. Order: same, relative and fifth, parallel, then by steps on the circle of
 * fifths; out of tune counts against it. Common practice, no source; the order of the first four follows the weights of
 * the MIREX key score (1, 0.5, 0.3, 0.2).
 * @public
 */
export function keyFit({ relation, fifths, cents }: KeyMeeting): number {
  const base = { same: 1, relative: 0.9, fifth: 0.85, parallel: 0.6, other: Math.max(0, 0.55 - 0.1 * fifths) }[
    relation
  ];
  return base * (1 - 0.4 * Math.min(1, Math.abs(cents) / 50));
}
