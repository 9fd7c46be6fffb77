import { resampleTo, toStereo, type AudioSource } from '../audio/index.js';
import { createLoudnessMeter, type Loudness } from '../loudness/index.js';
import { ANALYSIS_RATE, createFrontEnd, type FrontEnd } from '../signal/index.js';
import { createKeyFinder, type KeyFinder, type Key } from '../tonality/index.js';
import { throwIfAborted, type RunOptions } from '../units/index.js';

/** What one pass over the samples gives. */
export interface Heard {
  readonly frontEnd: FrontEnd;
  readonly loudness: Loudness;
  readonly key: Key;
}

/**
 * Reads a source once, block by block, and keeps only curves: the front end, the loudness, the key.
 * The source is closed at the end, also after an error.
 */
export async function listen(source: AudioSource, { onProgress, signal }: RunOptions = {}): Promise<Heard> {
  const frontEnd = createFrontEnd();
  const meter = createLoudnessMeter(source.sampleRate, source.channels);
  const keyFinder = createKeyFinder();
  const feedKey = createMonoFeed(keyFinder);
  let read = 0;
  try {
    const metered: AudioSource = {
      ...source,
      sampleRate: source.sampleRate,
      channels: source.channels,
      frames: source.frames,
      async *blocks() {
        for await (const block of source.blocks()) {
          throwIfAborted(signal);
          meter.push(block);
          read += block[0]?.length ?? 0;
          if (source.frames) onProgress?.({ stage: 'listening', done: Math.min(read / source.frames, 1) });
          yield toStereo(block);
        }
      },
      close: () => source.close(),
    };
    for await (const block of resampleTo(metered, ANALYSIS_RATE).blocks()) {
      const [left, right] = [block[0], block[1] ?? block[0]];
      frontEnd.push(left, right);
      feedKey(left, right);
    }
    const key = await keyFinder.finish();
    return { frontEnd: frontEnd.finish(), loudness: meter.finish(), key };
  } catch (error) {
    await keyFinder.close();
    throw error;
  } finally {
    await source.close();
  }
}

/** Feeds the middle of both channels to a key finder, which copies what it keeps: one array serves every block. */
function createMonoFeed(finder: KeyFinder): (left: Float32Array, right: Float32Array) => void {
  let room = new Float32Array(0);
  return (left, right) => {
    if (left === right) return finder.push(left);
    if (room.length < left.length) room = new Float32Array(left.length);
    for (let i = 0; i < left.length; i++) room[i] = (left[i] + right[i]) / 2;
    finder.push(room.subarray(0, left.length));
  };
}
