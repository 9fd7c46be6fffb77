import { BarwiseError, type Hertz } from '../units/index.js';
import { createChannelResampler, phaseTable } from './polyphase.js';
import type { AudioBlock, AudioSource } from './source.js';

/**
 * The same audio at another rate, block by block. Frequencies up to 86 % of the lower rate's half pass, what would alias
 * is at least 80 dB down, and there is no delay: sample n stands for the time n / rate, as before.
 * @param rate whole hertz
 * @throws BarwiseError `bad-option` for a rate that is no whole number of hertz
 */
export function resampleTo(source: AudioSource, rate: Hertz): AudioSource {
  const from = Math.round(source.sampleRate);
  if (!Number.isInteger(rate) || rate < 1) {
    throw new BarwiseError('bad-option', `A sample rate must be a whole number of hertz, not ${rate}.`);
  }
  if (from === rate) return source;
  const frames = source.frames === null ? null : Math.ceil((source.frames * rate) / from);
  async function* blocks(): AsyncGenerator<AudioBlock> {
    const table = phaseTable(from, rate);
    const channels = Array.from({ length: source.channels }, () => createChannelResampler(table));
    for await (const block of source.blocks()) {
      const out = channels.map((channel, c) => channel.push(block[c]));
      if (out[0].length > 0) yield out;
    }
    const rest = channels.map((channel) => channel.finish());
    if (rest[0].length > 0) yield rest;
  }
  return { sampleRate: rate, channels: source.channels, frames, blocks, close: () => source.close() };
}
