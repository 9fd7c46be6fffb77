/**
 * The AAC decoder that needs no system library: FFmpeg's, compiled to WebAssembly. It takes more than two channels, which
 * the native one does not. The package is made for browsers; this process stands in for one as far as it asks.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const FRAME = 1024;

/** Gives a function that decodes a whole small ADTS stream. */
export async function aacDecoder() {
  const require = createRequire(import.meta.url);
  const program = readFileSync(require.resolve('audio-file-decoder/decode-audio.wasm'));
  const address = `data:application/wasm;base64,${program.toString('base64')}`;
  Object.assign(globalThis, { require, __dirname: '', window: { location: { origin: 'file:///' } } });
  const { getAudioDecoder } = await import('audio-file-decoder');
  return async (bytes) => {
    const decoder = await getAudioDecoder(address, Uint8Array.from(bytes).buffer);
    const { channelCount, sampleRate } = decoder;
    const samples = decoder.decodeAudioData(0, -1, { multiChannel: true });
    decoder.dispose();
    // every instance leaves listeners behind that would keep it, and its memory, for good
    for (const event of ['uncaughtException', 'unhandledRejection']) process.removeAllListeners(event);
    const got = samples.length / channelCount;
    // it keeps the first unit of a stream to itself
    const kept = countUnits(bytes) * FRAME - got === FRAME ? FRAME : 0;
    const channelData = Array.from({ length: channelCount }, (_, c) => {
      const out = new Float32Array(kept + got);
      for (let i = 0, at = c; i < got; i++, at += channelCount) out[kept + i] = samples[at];
      return out;
    });
    return { channelData, sampleRate };
  };
}

function countUnits(bytes) {
  let count = 0;
  for (let at = 0; at + 7 <= bytes.length; count++) {
    at += Math.max(7, ((bytes[at + 3] & 3) << 11) | (bytes[at + 4] << 3) | (bytes[at + 5] >> 5));
  }
  return count;
}
