import type { Hertz } from '../units/index.js';

/** A second-order section as numbers, a0 = 1. */
export interface Section {
  readonly b: readonly [number, number, number];
  readonly a: readonly [1, number, number];
}

/** Rate for which ITU-R BS.1770-4 prints its coefficients. */
const PUBLISHED_RATE: Hertz = 48_000;

/** ITU-R BS.1770-4, table 1: the shelf that stands for the head. */
const SHELF: Section = {
  b: [1.53512485958697, -2.69169618940638, 1.19839281085285],
  a: [1, -1.69065929318241, 0.73248077421585],
};

/** ITU-R BS.1770-4, table 2: the high-pass. */
const HIGH_PASS: Section = { b: [1, -2, 1], a: [1, -1.99004745483398, 0.99007225036621] };

/**
 * The two sections of the K-weighting at any sampling rate: the analogue filter is recovered from the published
 * 48 kHz sections by undoing the bilinear transform, and transformed again at the wanted rate with the corner
 * frequency pre-warped. At 48 kHz the published numbers come back.
 *
 * @param rate sampling rate in hertz, 8,000 to 192,000
 * @returns shelf and high-pass
 */
export function kWeighting(rate: Hertz): readonly [Section, Section] {
  return [atRate(SHELF, rate), atRate(HIGH_PASS, rate)];
}

/**
 * With u = (1 − z⁻¹)/(1 + z⁻¹) = tan(πf/rate), a section becomes a ratio of quadratics in u; its denominator is
 * u² + (k/Q)·u + k² up to scale, k = tan(πf₀/rate). Changing the rate is scaling u by the ratio of the two k.
 */
function atRate(section: Section, rate: Hertz): Section {
  const b = toAnalogue(section.b);
  const a = toAnalogue(section.a);
  const k = Math.sqrt(a[0] / a[2]);
  const corner = (Math.atan(k) * PUBLISHED_RATE) / Math.PI;
  const scale = k / Math.tan((Math.PI * corner) / rate);
  const numerator = toDigital(b, scale);
  const denominator = toDigital(a, scale);
  const norm = denominator[0];
  return {
    b: [numerator[0] / norm, numerator[1] / norm, numerator[2] / norm],
    a: [1, denominator[1] / norm, denominator[2] / norm],
  };
}

/** Coefficients of u⁰, u¹, u² of c₀ + c₁z⁻¹ + c₂z⁻² times (1 + u)². */
function toAnalogue([c0, c1, c2]: readonly [number, number, number]): [number, number, number] {
  return [c0 + c1 + c2, 2 * (c0 - c2), c0 - c1 + c2];
}

/** The inverse of `toAnalogue` (times four) after u has become `scale`·u. */
function toDigital([d0, d1, d2]: readonly [number, number, number], scale: number): [number, number, number] {
  const e1 = d1 * scale;
  const e2 = d2 * scale * scale;
  return [d0 + e1 + e2, 2 * (d0 - e2), d0 - e1 + e2];
}
