import type { Frames } from '../../units/index.js';
import type { AudioBlock } from '../source.js';
import type { Rendered } from './decodepiece.js';
import type { Piece, PieceList } from './pieces.js';

/** What was lost on the way; filled in while the timeline is read. */
export interface Damage {
  places: number;
  /** Where the first loss is, in frames of the trimmed audio. */
  first: Frames;
  /** How much silence stands in for what was lost. */
  frames: Frames;
}

/**
 * Puts decoded stretches where they belong, with silence for what is lost between them, and trims the delay at the start
 * and the padding at the end.
 */
export async function* placeOnTimeline(
  list: Pick<PieceList, 'channels' | 'skip' | 'frames'>,
  rendered: AsyncIterable<readonly [Pick<Piece, 'start' | 'frames'>, Rendered]>,
  damage: Damage,
): AsyncGenerator<AudioBlock> {
  const end = list.skip + list.frames;
  let at = list.skip;

  function* silenceUntil(frame: Frames): Generator<AudioBlock> {
    const until = Math.min(frame, end);
    if (until <= at) return;
    if (damage.places++ === 0) damage.first = at - list.skip;
    damage.frames += until - at;
    for (; at < until; at += SILENCE) {
      const length = Math.min(SILENCE, until - at);
      yield Array.from({ length: list.channels }, () => new Float32Array(length));
    }
    at = until;
  }

  for await (const [, stretches] of rendered) {
    for (const { start, block } of stretches) {
      const last = start + block[0].length;
      if (last <= at || start >= end) continue;
      yield* silenceUntil(start);
      const from = at - start;
      const to = Math.min(last, end) - start;
      yield block.map((samples) => samples.subarray(from, to));
      at = start + to;
    }
  }
  yield* silenceUntil(end);
}

/** Silence is made in blocks of this many frames. */
const SILENCE = 1 << 16;
