import { throwIfAborted } from '../../units/index.js';
import { openBytes } from '../bytes.js';
import type { ReadOptions } from '../container.js';
import { makeFinite } from '../finite.js';
import type { AudioBlock, AudioSource } from '../source.js';
import { unusualSamples } from '../warnings.js';
import { frameBytes, type PcmLayout } from './layout.js';
import { toChannels } from './samples.js';

/** Frames in a block. */
const BLOCK = 1 << 16;

/** Reads uncompressed samples straight from the file, block by block. */
export function pcmSource(file: string, layout: PcmLayout, options: ReadOptions): AudioSource {
  let closed = false;
  async function* blocks(): AsyncGenerator<AudioBlock> {
    const reader = await openBytes(file, options.signal);
    const step = frameBytes(layout);
    let unusual = 0;
    try {
      for (let done = 0; done < layout.frames && !closed;) {
        throwIfAborted(options.signal);
        const wanted = Math.min(BLOCK, layout.frames - done);
        const bytes = await reader.copy(layout.offset + done * step, wanted * step);
        const block = toChannels(bytes, layout.channels, layout.format);
        if (block[0].length === 0) break;
        done += block[0].length;
        if (layout.format.kind === 'float') unusual += makeFinite(block);
        yield block;
        options.onProgress?.({ stage: 'decode', done: done / layout.frames });
      }
      if (unusual > 0) options.warnings.add(unusualSamples(unusual));
    } finally {
      await reader.close();
    }
  }
  return {
    sampleRate: layout.sampleRate,
    channels: layout.channels,
    frames: layout.frames,
    blocks,
    close: () => {
      closed = true;
      return Promise.resolve();
    },
  };
}
