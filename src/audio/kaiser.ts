/** A Kaiser-windowed sinc low-pass as a function of time (in input samples), and how far it reaches to each side. */
export interface SincFilter {
  readonly at: (time: number) => number;
  readonly reach: number;
}

/**
 * Designs the filter. Source: J. F. Kaiser, "Nonrecursive digital filter design using the I0-sinh window function"
 * (1974): window shape and length from stop-band attenuation and transition width.
 * @param pass, stop edges of the transition band, in cycles a sample (0…0.5)
 * @param attenuation of the stop band, dB (above 50)
 */
export function kaiserSinc(pass: number, stop: number, attenuation: number): SincFilter {
  const cutoff = (pass + stop) / 2;
  const beta = 0.1102 * (attenuation - 8.7);
  const reach = (attenuation - 7.95) / (2 * 14.36 * (stop - pass));
  const scale = 1 / bessel0(beta);
  return {
    reach,
    at(time) {
      const edge = time / reach;
      if (edge <= -1 || edge >= 1) return 0;
      const angle = 2 * Math.PI * cutoff * time;
      const sinc = Math.abs(angle) < 1e-9 ? 1 : Math.sin(angle) / angle;
      return 2 * cutoff * sinc * bessel0(beta * Math.sqrt(1 - edge * edge)) * scale;
    },
  };
}

/** Modified Bessel function of the first kind, order 0, by its power series. */
function bessel0(x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; term > sum * 1e-16; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
