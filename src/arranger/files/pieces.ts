import type { Frames, RunOptions } from '../../units/index.js';
import { throwIfAborted } from '../../units/index.js';
import type { Stereo } from '../mix/feed.js';

/** Frames encoded at a time. */
const PIECE: Frames = 1 << 16;

/** Walks through a track piece by piece, giving way to other work in between. */
export async function* piecesOf(audio: Stereo, options: RunOptions): AsyncGenerator<Stereo> {
  const frames = audio.left.length;
  for (let start = 0; start < frames; start += PIECE) {
    throwIfAborted(options.signal);
    const end = Math.min(frames, start + PIECE);
    yield { left: audio.left.subarray(start, end), right: audio.right.subarray(start, end) };
    options.onProgress?.({ stage: 'encode', done: end / frames });
    await new Promise((resolve) => setImmediate(resolve));
  }
}
