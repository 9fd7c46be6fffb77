import type { LadderMetrics } from './geometry.js';

/** For paper, in points: nothing under 7 pt. */
export const PAPER_METRICS: LadderMetrics = {
  lane: 4,
  text: 7,
  label: 8.5,
  leading: 8.2,
  gap: 4,
  labelWidth: 56,
  hairline: 0.35,
  heavy: 1.1,
};

/** For a screen, in CSS pixels. */
export const SCREEN_METRICS: LadderMetrics = {
  lane: 8,
  text: 13,
  label: 16,
  leading: 17,
  gap: 10,
  labelWidth: 128,
  hairline: 0.75,
  heavy: 2.25,
};

/** The same measures for another size of paper or screen. @example scaleMetrics(PAPER_METRICS, 1.4).text // 9.8 */
export function scaleMetrics(metrics: LadderMetrics, factor: number): LadderMetrics {
  const scaled = Object.entries<number>({ ...metrics }).map(([name, value]) => [name, value * factor] as const);
  return Object.fromEntries(scaled) as unknown as LadderMetrics;
}
