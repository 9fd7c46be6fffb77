import { GROUPS, type StepTable } from './steps.js';

/** A bar of the tail has at most this share of the median bar's power, and of its onsets: what rings on after the end. */
const TAIL_POWER = 0.04;
const TAIL_FLUX = 0.12;

/** A longer quiet end is music. */
const LONGEST_TAIL = 4;

/** Number of bars up to where the music ends; what rings on behind it belongs to the last phrase. At least 1. */
export function musicBars({ power, flux, barRow }: StepTable): number {
  const bars = barRow.length - 1;
  const mean = (table: Float32Array, b: number) => {
    let sum = 0;
    for (let i = barRow[b] * GROUPS; i < barRow[b + 1] * GROUPS; i++) sum += table[i];
    return sum / Math.max(barRow[b + 1] - barRow[b], 1);
  };
  const of = (table: Float32Array) => Array.from({ length: bars }, (_, b) => mean(table, b));
  const [powers, fluxes] = [of(power), of(flux)];
  const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;
  const [usualPower, usualFlux] = [median(powers), median(fluxes)];
  let end = bars;
  while (
    end > 1 &&
    bars - end < LONGEST_TAIL &&
    powers[end - 1] <= TAIL_POWER * usualPower &&
    fluxes[end - 1] <= TAIL_FLUX * usualFlux
  )
    end--;
  return end;
}
