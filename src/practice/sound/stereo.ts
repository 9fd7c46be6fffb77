import { openAudio, resampleTo, toStereo } from '../../audio/index.js';
import { throwIfAborted, type Hertz, type RunOptions, type Seconds } from '../../units/index.js';

/** The rate at which practice audio is made. */
export const RATE: Hertz = 44_100;

/** Two channels at `RATE`, equally long. @experimental */
export interface Stereo {
  readonly left: Float32Array;
  readonly right: Float32Array;
}

/** Silence of so many frames. */
export function silence(frames: number): Stereo {
  return { left: new Float32Array(frames), right: new Float32Array(frames) };
}

/**
 * Reads a stretch of an audio file; what lies outside the file is silence.
 * @param from seconds into the file, may be negative
 * @param to seconds into the file
 * @throws BarwiseError as `openAudio`
 */
export async function readStretch(file: string, from: Seconds, to: Seconds, options: RunOptions = {}): Promise<Stereo> {
  const { source } = await openAudio(file, options);
  const at = resampleTo(source, RATE);
  const first = Math.round(from * RATE);
  const out = silence(Math.max(0, Math.round(to * RATE) - first));
  let position = -first;
  try {
    for await (const block of at.blocks()) {
      throwIfAborted(options.signal);
      const [left, right] = toStereo(block);
      place(out.left, left, position);
      place(out.right, right, position);
      position += left.length;
      if (position >= out.left.length) break;
    }
  } finally {
    await at.close();
  }
  return out;
}

/** Copies samples into a longer array at a place; what sticks out is left away. */
function place(into: Float32Array, samples: Float32Array, at: number): void {
  const skip = Math.max(0, -at);
  const room = into.length - Math.max(0, at);
  if (skip >= samples.length || room <= 0) return;
  into.set(samples.subarray(skip, skip + room), Math.max(0, at));
}
