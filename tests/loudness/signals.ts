import { createLoudnessMeter, type Loudness } from '../../src/loudness/index.js';

/** Samples of a sine with constant peak level for each stretch. */
export function steppedSine(
  rate: number,
  frequency: number,
  steps: readonly { seconds: number; dbfs: number }[],
): Float32Array {
  const lengths = steps.map((s) => Math.round(s.seconds * rate));
  const x = new Float32Array(lengths.reduce((a, b) => a + b, 0));
  let at = 0;
  steps.forEach(({ dbfs }, s) => {
    const amplitude = 10 ** (dbfs / 20);
    for (const end = at + lengths[s]; at < end; at++)
      x[at] = amplitude * Math.sin((2 * Math.PI * frequency * at) / rate);
  });
  return x;
}

/** Reads a whole signal in blocks of an awkward size. */
export function measure(rate: number, channels: readonly Float32Array[], blockSize = 7_919): Loudness {
  const meter = createLoudnessMeter(rate, channels.length);
  for (let from = 0; from < channels[0].length; from += blockSize)
    meter.push(channels.map((c) => c.subarray(from, from + blockSize)));
  return meter.finish();
}

export function stereo(x: Float32Array): Float32Array[] {
  return [x, x];
}
