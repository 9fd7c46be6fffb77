import type { Frames } from '../units/index.js';
import { loadFft } from '../signal/index.js';
import { FRAME, hearPitches } from './hear-pitches.js';
import { bestKeys } from './key-profiles.js';
import { weighKeys, type Key } from './key.js';
import { createReservoir, EXCERPT } from './reservoir.js';

/** Takes a track block by block and names its key. Memory stays under 15 MB for a track of any length. */
export interface KeyFinder {
  /** @param left, right samples at 44.1 kHz, of which the middle is heard; copied. Without `right`: mono. */
  push(left: Float32Array, right?: Float32Array): void;
  /** Names the key. Rejects with an Error when essentia.js does not start. */
  finish(): Promise<Key>;
}

/** Parts of the track that are heard on their own: they tell how sure the key is and which others are in the running. */
const PARTS = 6;

const NO_KEY: Key = { tonic: null, mode: null, confidence: null, alternatives: [] };

/**
 * Starts a key finder: it hears three quarters of a minute's worth of excerpts spread over the track, with and without
 * the bass, and each sixth of them. The result does not depend on the level of the track.
 *
 * @param expected how many frames will come, where that is known: it spares work, and changes nothing
 * @example
 * const finder = createKeyFinder();
 * for await (const block of monoBlocks) finder.push(block);
 * const { tonic, mode } = await finder.finish(); // 'A', 'minor'
 */
export function createKeyFinder(expected: Frames = 0): KeyFinder {
  const reservoir = createReservoir(expected);
  return {
    push: (left, right = left) => reservoir.push(left, right),
    async finish() {
      const excerpts = reservoir.finish();
      if (excerpts.length === 0) return NO_KEY;
      const cuts = Array.from(
        { length: PARTS + 1 },
        (_, p) => Math.floor((p * excerpts.length) / PARTS) * (EXCERPT / FRAME),
      );
      await loadFft();
      const profiles = hearPitches(joined(excerpts), cuts);
      const [full, withoutBass, ...parts] = bestKeys([profiles.full, profiles.withoutBass, ...profiles.parts]);
      // Where nothing sounds above the threshold of hearing there is no strength.
      if (!Number.isFinite(full.strength) || !Number.isFinite(withoutBass.strength)) return NO_KEY;
      return weighKeys(
        [full, withoutBass],
        parts.filter((p) => Number.isFinite(p.strength)),
      );
    },
  };
}

function joined(excerpts: readonly Float32Array[]): Float32Array {
  const all = new Float32Array(excerpts.reduce((sum: Frames, e) => sum + e.length, 0));
  let at = 0;
  for (const e of excerpts) {
    all.set(e, at);
    at += e.length;
  }
  return all;
}
