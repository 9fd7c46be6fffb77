import FFT from 'fft.js';

/** Periodic Hann window of n samples, scaled so that a full-scale sine has power 1 in its bin. */
export function hann(n: number): Float64Array {
  const w = new Float64Array(n);
  for (let i = 0; i < n; i++) w[i] = (0.5 - 0.5 * Math.cos((2 * Math.PI * i) / n)) * (4 / n);
  return w;
}

/** Takes real frames one after the other and gives the power spectrum of each, in order. */
export interface PowerSpectra {
  push(frame: Float32Array): void;
  /** Gives the spectrum of a frame that is still waiting for its partner. */
  flush(): void;
}

/**
 * Bins 0…lastBin of |FFT|² of frames of n samples (a power of two) under a Hann window. Two real frames go through one
 * complex transform, one as its real and one as its imaginary part, and are taken apart by symmetry (Press et al.,
 * "Numerical Recipes", 12.3.1). The array given to `onPower` is used again.
 */
export function createPowerSpectra(n: number, lastBin: number, onPower: (power: Float64Array) => void): PowerSpectra {
  const fft = new FFT(n);
  const window = hann(n);
  const input = new Float64Array(2 * n);
  const output = new Float64Array(2 * n);
  const first = new Float64Array(lastBin + 1);
  const second = new Float64Array(lastBin + 1);
  let waiting = false;

  function transform(): void {
    fft.transform(output, input);
    for (let k = 0; k <= lastBin; k++) {
      const m = k === 0 ? 0 : n - k;
      const re = output[2 * k];
      const im = output[2 * k + 1];
      const reM = output[2 * m];
      const imM = output[2 * m + 1];
      // F = (Z(k) + conj Z(n−k)) / 2 and G = (Z(k) − conj Z(n−k)) / 2i.
      const a = re + reM;
      const b = im - imM;
      const c = im + imM;
      const d = reM - re;
      first[k] = (a * a + b * b) / 4;
      second[k] = (c * c + d * d) / 4;
    }
  }

  return {
    push(frame) {
      const from = waiting ? 1 : 0;
      for (let i = 0; i < n; i++) input[2 * i + from] = frame[i] * window[i];
      waiting = !waiting;
      if (waiting) return;
      transform();
      onPower(first);
      onPower(second);
    },
    flush() {
      if (!waiting) return;
      for (let i = 0; i < n; i++) input[2 * i + 1] = 0;
      waiting = false;
      transform();
      onPower(first);
    },
  };
}
