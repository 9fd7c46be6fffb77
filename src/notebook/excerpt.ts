import { encodeMp3 } from '../arranger/index.js';
import { openAudio, resampleTo, toStereo } from '../audio/index.js';
import type { RunOptions, Seconds } from '../units/index.js';

/** Rate and bit rate of an excerpt: 12 kB a second. */
const RATE = 44_100;
const KILOBITS = 96;

/**
 * A stretch of a file as the bytes of an MP3 that players give back from its very first sample.
 * @param from, to seconds of the track; what lies outside the file is silence
 * @throws BarwiseError as openAudio does
 */
export async function excerptMp3(file: string, from: Seconds, to: Seconds, options: RunOptions = {}): Promise<Buffer> {
  const { source } = await openAudio(file, options);
  const first = Math.round(from * RATE);
  const length = Math.max(1, Math.round((to - from) * RATE));
  const [left, right] = [new Float32Array(length), new Float32Array(length)];
  let at = 0;
  try {
    for await (const block of resampleTo(source, RATE).blocks()) {
      const [l, r] = toStereo(block);
      copy(l, left, at - first);
      copy(r, right, at - first);
      at += l.length;
      if (at >= first + length) break;
    }
  } finally {
    await source.close();
  }
  return Buffer.concat(await encodeMp3({ left, right }, { ...options, kilobits: KILOBITS }));
}

/** Copies what of a block falls into a stretch. @param offset of the block in the stretch, may be negative */
function copy(block: Float32Array, into: Float32Array, offset: number): void {
  const start = Math.max(0, -offset);
  const end = Math.min(block.length, into.length - offset);
  if (end > start) into.set(block.subarray(start, end), offset + start);
}
