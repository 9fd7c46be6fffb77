import type { Hertz } from '../units/index.js';
import { startEssentia, type EssentiaThread, type HeardKey, type KeyProfile } from './essentia.js';
import { weighKeys, type Key } from './key.js';
import { createReservoir } from './reservoir.js';

/** Takes a track block by block and names its key. Memory stays under 15 MB for a track of any length. */
export interface KeyFinder {
  /** @param mono samples at 44.1 kHz; copied */
  push(mono: Float32Array): void;
  /** Names the key and ends the thread; the work is done there, so that the caller can go on meanwhile. */
  finish(): Promise<Key>;
  /** Ends the thread without an answer; safe to call at any time. */
  close(): Promise<void>;
}

/** Profiles made for dance music: Faraldo et al., "Key Estimation in Electronic Dance Music", ECIR 2016. */
const PROFILE: KeyProfile = 'edma';
/**
 * The track is heard twice: all of it, and without what lies below 120 Hz. A tuned kick can pass for a key with its one
 * note, but then the rest of the drums says something else, or nothing.
 */
const WITH_BASS: Hertz = 25;
const WITHOUT_BASS: Hertz = 120;
/** Parts of the track that are heard on their own: they tell how sure the key is and which others are in the running. */
const PARTS = 6;

const NO_KEY: Key = { tonic: null, mode: null, confidence: null, alternatives: [] };

/**
 * Starts a key finder: essentia.js' key extractor on three quarters of a minute's worth of excerpts spread over the track, with and
 * without the bass, and on each sixth of them. The result does not depend on the level of the track.
 *
 * @example
 * const finder = createKeyFinder();
 * for await (const block of monoBlocks) finder.push(block);
 * const { tonic, mode } = await finder.finish(); // 'A', 'minor'
 */
export function createKeyFinder(): KeyFinder {
  const reservoir = createReservoir();
  let thread: EssentiaThread | null = null;
  return {
    push: (mono) => reservoir.push(mono),
    async finish() {
      const excerpts = reservoir.finish();
      if (excerpts.length === 0) return NO_KEY;
      thread = startEssentia();
      try {
        return await hear(thread, excerpts);
      } finally {
        await thread.close();
      }
    },
    async close() {
      await thread?.close();
    },
  };
}

async function hear(thread: EssentiaThread, excerpts: readonly Float32Array[]): Promise<Key> {
  const full = await thread.key(joined(excerpts), PROFILE, WITH_BASS);
  const upper = await thread.key(joined(excerpts), PROFILE, WITHOUT_BASS);
  // Where nothing sounds at the extractor's thresholds there is no strength.
  if (!Number.isFinite(full.strength) || !Number.isFinite(upper.strength)) return NO_KEY;
  const parts: HeardKey[] = [];
  for (let p = 0; p < PARTS; p++) {
    const part = excerpts.slice(
      Math.floor((p * excerpts.length) / PARTS),
      Math.floor(((p + 1) * excerpts.length) / PARTS),
    );
    if (part.length === 0) continue;
    const heard = await thread.key(joined(part), PROFILE, WITHOUT_BASS);
    if (Number.isFinite(heard.strength)) parts.push(heard);
  }
  return weighKeys([full, upper], parts);
}

function joined(excerpts: readonly Float32Array[]): Float32Array {
  const all = new Float32Array(excerpts.reduce((sum, e) => sum + e.length, 0));
  let at = 0;
  for (const e of excerpts) {
    all.set(e, at);
    at += e.length;
  }
  return all;
}
