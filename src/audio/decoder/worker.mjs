/**
 * The decoding process. It may die without harm: all it knows is in the request at hand.
 *
 *   node worker.mjs auto|native|wasm mp3|flac|vorbis|aac
 *
 * Standard input takes requests, each a whole small file of the codec: uint32 length, uint32 sample rate, bytes.
 * Descriptor 3 gives answers in the same order: uint32 kind, uint32 channels, uint32 count, uint32 rate, then
 *   kind 0 (samples): channels × count float32, channel after channel;
 *   kind 1 (this piece cannot be decoded) and 2 (which decoder runs; the first answer): count bytes of UTF-8 text.
 * All numbers are little-endian.
 */
import { Socket } from 'node:net';

const [choice, codec] = process.argv.slice(2);
const HEAD = 16;
const output = new Socket({ fd: 3, readable: false, writable: true });
// nobody listens any more: without further requests the process ends by itself
output.on('error', () => process.stdin.destroy());

function answer(kind, channels, count, rate, bytes) {
  const head = Buffer.alloc(HEAD);
  [kind, channels, count, rate].forEach((value, i) => head.writeUInt32LE(value, i * 4));
  return new Promise((resolve) => {
    output.cork();
    output.write(head);
    output.write(bytes, resolve);
    output.uncork();
  });
}

const say = (kind, text) => {
  const bytes = Buffer.from(text, 'utf8');
  return answer(kind, 0, bytes.length, 0, bytes);
};

/** The bytes of a stream, so many at a time; null at its end. */
function takerOf(stream) {
  const chunks = stream[Symbol.asyncIterator]();
  let rest = Buffer.alloc(0);
  return async (count) => {
    const parts = [rest];
    let have = rest.length;
    while (have < count) {
      const { value, done } = await chunks.next().catch(() => ({ done: true }));
      if (done) return null;
      parts.push(value);
      have += value.length;
    }
    const all = parts.length === 1 ? rest : Buffer.concat(parts);
    rest = all.subarray(count);
    return all.subarray(0, count);
  };
}

async function nativeDecoder() {
  const { OfflineAudioContext } = await import('node-web-audio-api');
  let context = null;
  return async (bytes, rate) => {
    // the context has the file's own rate: converting to another one here would alias
    if (context?.sampleRate !== rate) context = new OfflineAudioContext(1, 1, rate);
    const copy = new ArrayBuffer(bytes.length);
    new Uint8Array(copy).set(bytes);
    const buffer = await context.decodeAudioData(copy);
    const { numberOfChannels: channels, length, sampleRate } = buffer;
    const samples = new Float32Array(channels * length);
    for (let c = 0; c < channels; c++) buffer.copyFromChannel(samples.subarray(c * length, (c + 1) * length), c);
    return { samples, channels, length, sampleRate };
  };
}

/** Places of Vorbis channels (Vorbis I specification 4.3.9) in the order left, right, centre, low, surrounds. */
const VORBIS_ORDER = { 3: [0, 2, 1], 5: [0, 2, 1, 3, 4], 6: [0, 2, 1, 5, 3, 4] };

function planar(channelData, rate, order) {
  const length = channelData[0]?.length ?? 0;
  const samples = new Float32Array(channelData.length * length);
  channelData.forEach((_, c) => samples.set(channelData[order?.[c] ?? c], c * length));
  return { samples, channels: channelData.length, length, sampleRate: rate };
}

async function wasmDecoder() {
  if (codec === 'mp3') {
    const { MPEGDecoder } = await import('mpg123-decoder');
    const decoder = new MPEGDecoder({ enableGapless: false });
    await decoder.ready;
    return async (bytes) => {
      const { channelData, sampleRate } = decoder.decode(bytes);
      await decoder.reset();
      return planar(channelData, sampleRate);
    };
  }
  if (codec === 'flac') {
    const { FLACDecoder } = await import('@wasm-audio-decoders/flac');
    const decoder = new FLACDecoder();
    await decoder.ready;
    return async (bytes) => {
      const { channelData, sampleRate } = await decoder.decodeFile(bytes);
      return planar(channelData, sampleRate);
    };
  }
  if (codec === 'vorbis') {
    const { OggVorbisDecoder } = await import('@wasm-audio-decoders/ogg-vorbis');
    const decoder = new OggVorbisDecoder();
    await decoder.ready;
    return async (bytes) => {
      const { channelData, sampleRate } = await decoder.decodeFile(bytes);
      return planar(channelData, sampleRate, VORBIS_ORDER[channelData.length]);
    };
  }
  const { aacDecoder } = await import('./aac.mjs');
  const decode = await aacDecoder();
  return async (bytes) => {
    const { channelData, sampleRate } = await decode(bytes);
    return planar(channelData, sampleRate);
  };
}

async function start() {
  if (choice !== 'wasm') {
    try {
      const decode = await nativeDecoder();
      await say(2, 'native');
      return decode;
    } catch (error) {
      if (choice === 'native') {
        await say(2, `none ${error.message}`);
        return null;
      }
    }
  }
  const decode = await wasmDecoder();
  await say(2, 'wasm');
  return decode;
}

const decode = await start();
if (!decode) process.stdin.destroy();
const take = takerOf(process.stdin);
while (decode) {
  const head = await take(8);
  const bytes = head && (await take(head.readUInt32LE(0)));
  if (!bytes) break;
  try {
    const { samples, channels, length, sampleRate } = await decode(bytes, head.readUInt32LE(4));
    await answer(0, channels, length, sampleRate, new Uint8Array(samples.buffer));
  } catch (error) {
    await say(1, String(error?.message ?? error));
  }
  // decoded buffers live outside the JavaScript heap, which therefore does not know when to tidy up
  globalThis.gc?.();
}
output.end();
