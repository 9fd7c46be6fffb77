/** A burst of 1 kHz that dies away within some milliseconds, from a whole sample on. */
export function click(rate: number, seconds: number, at = 1): Float32Array {
  const out = new Float32Array(Math.round(rate * seconds));
  const start = Math.round(at * rate);
  for (let i = 0; i < 0.02 * rate && start + i < out.length; i++) {
    out[start + i] = 0.9 * Math.exp(-i / rate / 0.002) * Math.cos((2 * Math.PI * 1000 * i) / rate);
  }
  return out;
}

/** A sine. */
export function tone(rate: number, seconds: number, hertz: number, level = 0.5): Float32Array {
  return new Float32Array(Math.round(rate * seconds)).map((_, i) => level * Math.sin((2 * Math.PI * hertz * i) / rate));
}

/** Noise that is the same every time, with a slow swell, so that no two stretches are alike. */
export function noise(length: number, seed = 1): Float32Array {
  let state = seed >>> 0;
  return new Float32Array(length).map((_, i) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state / 2 ** 32 - 0.5) * (0.4 + 0.3 * Math.sin(i / 9000));
  });
}

/** Where a click is, by the lag at which the correlation with it is greatest; exact to a sample. */
export function findClick(samples: Float32Array, rate: number, expected = 1): number {
  const length = Math.round(0.008 * rate);
  const pattern = click(rate, 0.02, 0);
  const reach = Math.round(0.03 * rate);
  const centre = Math.round(expected * rate);
  let best = -Infinity;
  let place = NaN;
  for (let lag = -reach; lag <= reach; lag++) {
    let sum = 0;
    for (let i = 0; i < length; i++) sum += pattern[i] * (samples[centre + lag + i] ?? 0);
    if (sum > best) {
      best = sum;
      place = (centre + lag) / rate;
    }
  }
  return place;
}

/** Largest difference between two stretches. */
export function difference(a: Float32Array, b: Float32Array, from = 0, to = Math.min(a.length, b.length)): number {
  let most = 0;
  for (let i = from; i < to; i++) most = Math.max(most, Math.abs(a[i] - b[i]));
  return most;
}
