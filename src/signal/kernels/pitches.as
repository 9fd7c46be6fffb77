// AssemblyScript: what is heard of notes in one spectrum, compiled into loops.wasm with the other loops. Pointers are byte offsets;
// sums are in the order of plain loops, so that they come out the same.

import { cos, log10, log2, pow } from './logs';

/** Samples under a window in double precision. */
export function tapered(samples: usize, window: usize, n: i32, out: usize): void {
  for (let at: usize = 0; at < <usize>n << 2; at += 4)
    store<f32>(out + at, <f32>(<f64>load<f32>(samples + at) * load<f64>(window + (at << 1))));
}

/** Magnitudes of the first bins of a spectrum of real and imaginary parts in turn, whose first number is bin 0. */
export function magnitudes(spectrum: usize, bins: i32, out: usize): void {
  store<f32>(out, Mathf.abs(load<f32>(spectrum)));
  for (let k: usize = 1; k < <usize>bins; k++) {
    const re = <f64>load<f32>(spectrum + (k << 3));
    const im = <f64>load<f32>(spectrum + (k << 3), 4);
    store<f32>(out + (k << 2), <f32>Math.sqrt(re * re + im * im));
  }
}

/** Decibels of a magnitude, never below `nothing`. */
function decibels(magnitude: f64, nothing: f64): f64 {
  return magnitude < 1e-10 ? nothing : 20 * log10(magnitude);
}

/**
 * Levels in decibels of `count` stretches of a spectrum of magnitudes, energies weighted by energy: `stretches` holds the first bin of
 * each and how many it has, `weights` the weights of all of them. The last level is the one before it.
 */
export function envelope(spectrum: usize, stretches: usize, weights: usize, count: i32, nothing: f64, levels: usize): void {
  for (let p = 0; p < count; p++) {
    let at = spectrum + (<usize>load<i32>(stretches + (<usize>p << 3)) << 2);
    const end = at + (<usize>load<i32>(stretches + (<usize>p << 3), 4) << 2);
    let sum: f64 = 0;
    let weight: f64 = 0;
    for (; at < end; at += 4) {
      const x = <f64>load<f32>(at);
      const energy = x * x;
      const w = load<f64>(weights) * energy;
      weight += w;
      sum += w * energy;
      weights += 8;
    }
    store<f64>(levels + (<usize>p << 3), decibels(Math.sqrt(weight > 0 ? sum / weight : 0), nothing));
  }
  const last = levels + (<usize>(count - 1) << 3);
  store<f64>(last, load<f64>(last - 8));
}

/** Inserts a peak, frequency and magnitude, by its magnitude; the weakest falls out when there is no more room. Gives how many there are. */
function keep(peaks: usize, count: i32, most: i32, frequency: f64, magnitude: f64): i32 {
  let at = peaks + (<usize>count << 4);
  if (count === most) {
    at -= 16;
    if (magnitude <= load<f64>(at, 8)) return count;
  } else count++;
  for (; at > peaks && load<f64>(at - 16, 8) < magnitude; at -= 16) memory.copy(at, at - 16, 16);
  store<f64>(at, frequency);
  store<f64>(at, magnitude, 8);
  return count;
}

/**
 * The `most` highest peaks of a spectrum of magnitudes between two bins and up to a frequency, each at the top of the parabola through
 * three bins, `width` hertz apart: frequency and magnitude of each, the highest first. Gives how many there are.
 */
export function peaksOf(spectrum: usize, first: i32, last: i32, width: f64, highest: f64, threshold: f64, most: i32, peaks: usize): i32 {
  let count = 0;
  const begin = <f64>load<f32>(spectrum + (<usize>first << 2));
  // A spectrum that falls from the lowest bin on has its peak there.
  if (begin > <f64>load<f32>(spectrum + (<usize>first << 2), 4) && begin > threshold)
    count = keep(peaks, count, most, <f64>first * width, begin);
  for (let k = first + 1; k <= last; k++) {
    const at = spectrum + (<usize>k << 2);
    const before = <f64>load<f32>(at - 4);
    const top = <f64>load<f32>(at);
    const after = <f64>load<f32>(at, 4);
    if (!(top > threshold && top > before && top > after)) continue;
    const slope = before - after;
    const off = (0.5 * slope) / (before - 2 * top + after);
    const frequency = (<f64>k + off) * width;
    if (frequency <= highest) count = keep(peaks, count, most, frequency, top - 0.25 * slope * off);
  }
  return count;
}

/**
 * Measures peaks against an envelope whose levels lie `step` hertz apart: magnitude 1 at the envelope and above, less below, `nothing`
 * from `depth` decibels below it on; `tilt` decibels less for each hertz.
 */
export function whitened(peaks: usize, count: i32, levels: usize, step: f64, depth: f64, tilt: f64, nothing: f64): void {
  for (const end = peaks + (<usize>count << 4); peaks < end; peaks += 16) {
    const frequency = load<f64>(peaks);
    const place = frequency / step;
    const p = floor(place);
    const at = levels + (<usize>p << 3);
    const level = load<f64>(at) + (place - p) * (load<f64>(at, 8) - load<f64>(at));
    const above = decibels(load<f64>(peaks, 8), nothing) - level;
    const stands = above > 0 ? 0 : above > -depth ? above : nothing;
    store<f64>(peaks, pow(10, (stands - tilt * frequency) / 20), 8);
  }
}

/** A pitch counts for the class it lies at, less the further off it is: nothing half a semitone away. */
function addPitch(profile: usize, pitch: f64, power: f64): void {
  const nearest = floor(pitch + 0.5);
  const place = <i32>nearest % 12;
  const at = profile + (<usize>(place < 0 ? place + 12 : place) << 3);
  store<f64>(at, load<f64>(at) + power * cos(Math.PI * (pitch - nearest)));
}

/**
 * Adds the power of peaks from a frequency on to a profile of twelve pitch classes, each for what it may be an overtone of: `partials` holds
 * `many` distances in semitones, and weights. The class of `tuning` hertz is `tuned`.
 */
export function addPeaks(profile: usize, peaks: usize, count: i32, lowest: f64, tuning: f64, tuned: f64, partials: usize, many: i32): void {
  for (const end = peaks + (<usize>count << 4); peaks < end; peaks += 16) {
    const frequency = load<f64>(peaks);
    if (frequency < lowest) continue;
    const pitch = tuned + 12 * log2(frequency / tuning);
    const magnitude = load<f64>(peaks, 8);
    const power = magnitude * magnitude;
    for (let k: usize = 0; k < <usize>many; k++)
      addPitch(profile, pitch - load<f64>(partials + (k << 4)), power * load<f64>(partials + (k << 4), 8));
  }
}
