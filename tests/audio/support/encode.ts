import { createRequire } from 'node:module';
import { createMp3Encoder, createOggEncoder } from 'wasm-media-encoders';

const require = createRequire(import.meta.url);

type Channels = readonly Float32Array[];

/** MP3 without any tag, by LAME. */
export async function encodeMp3(
  channels: Channels,
  sampleRate: number,
  bitrate: 64 | 128 | 192 = 128,
): Promise<Buffer> {
  const encoder = await createMp3Encoder();
  encoder.configure({ sampleRate: sampleRate, channels: channels.length as 1 | 2, bitrate });
  return collect(encoder, channels);
}

/** Ogg Vorbis, by libvorbis. */
export async function encodeOgg(channels: Channels, sampleRate: number): Promise<Buffer> {
  const encoder = await createOggEncoder();
  encoder.configure({ sampleRate, channels: channels.length as 1 | 2, vbrQuality: 3 });
  return collect(encoder, channels);
}

interface MediaEncoder {
  encode(samples: [Float32Array] | [Float32Array, Float32Array]): Uint8Array;
  finalize(): Uint8Array;
}

function collect(encoder: MediaEncoder, channels: Channels): Buffer {
  // what the encoder hands out is its own memory, and is overwritten by the next call
  const parts: Buffer[] = [];
  const length = channels[0].length;
  for (let at = 0; at < length; at += 44100) {
    const block = channels.map((c) => c.subarray(at, at + 44100)) as [Float32Array, Float32Array];
    parts.push(Buffer.from(encoder.encode(block)));
  }
  parts.push(Buffer.from(encoder.finalize()));
  return Buffer.concat(parts);
}

/** FLAC, by libFLAC. */
export async function encodeFlac(channels: Channels, sampleRate: number, bits: 16 | 24 = 16): Promise<Buffer> {
  const Flac = require('libflacjs/dist/libflac.js') as FlacModule;
  if (!Flac.isReady()) await new Promise<void>((resolve) => Flac.on('ready', () => resolve()));
  const encoder = Flac.create_libflac_encoder(sampleRate, channels.length, bits, 5, channels[0].length, false, 0);
  const parts: Buffer[] = [];
  let head: FlacMetadata | null = null;
  const onWrite = (bytes: Uint8Array) => void parts.push(Buffer.from(bytes));
  Flac.init_encoder_stream(encoder, onWrite, (metadata) => (head = metadata ?? head));
  const scale = 2 ** (bits - 1) - 1;
  const integers = channels.map((c) => Int32Array.from(c, (x) => Math.round(x * scale)));
  Flac.FLAC__stream_encoder_process(encoder, integers, channels[0].length);
  Flac.FLAC__stream_encoder_finish(encoder);
  Flac.FLAC__stream_encoder_delete(encoder);
  void head;
  return Buffer.concat(parts);
}

interface FlacMetadata {
  readonly md5sum?: string;
}
interface FlacModule {
  isReady(): boolean;
  on(event: 'ready', listener: () => void): void;
  create_libflac_encoder(
    rate: number,
    channels: number,
    bits: number,
    level: number,
    total: number,
    verify: boolean,
    block: number,
  ): number;
  init_encoder_stream(
    id: number,
    write: (bytes: Uint8Array) => void,
    metadata: (metadata?: FlacMetadata) => void,
  ): number;
  FLAC__stream_encoder_process(id: number, channels: Int32Array[], frames: number): boolean;
  FLAC__stream_encoder_finish(id: number): boolean;
  FLAC__stream_encoder_delete(id: number): void;
}

/** AIFF, big-endian integers (AIFF 1.3). */
export function encodeAiff(channels: Channels, sampleRate: number, bits: 16 | 24 = 16): Buffer {
  const width = bits / 8;
  const frames = channels[0].length;
  const size = frames * channels.length * width;
  const out = Buffer.alloc(12 + 26 + 16 + size + (size & 1));
  out.write('FORM', 0, 'latin1');
  out.writeUInt32BE(out.length - 8, 4);
  out.write('AIFFCOMM', 8, 'latin1');
  out.writeUInt32BE(18, 16);
  out.writeUInt16BE(channels.length, 20);
  out.writeUInt32BE(frames, 22);
  out.writeUInt16BE(bits, 26);
  const exponent = Math.floor(Math.log2(sampleRate));
  out.writeUInt16BE(16383 + exponent, 28);
  out.writeBigUInt64BE(BigInt(sampleRate) << BigInt(63 - exponent), 30);
  out.write('SSND', 38, 'latin1');
  out.writeUInt32BE(size + 8, 42);
  let at = 54;
  for (let i = 0; i < frames; i++) {
    for (const c of channels) {
      out.writeIntBE(Math.round(c[i] * (2 ** (bits - 1) - 1)), at, width);
      at += width;
    }
  }
  return out;
}
