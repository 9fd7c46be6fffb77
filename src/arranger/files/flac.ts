import { createRequire } from 'node:module';
import type { Flac } from 'libflacjs';
import { BarwiseError } from '../../units/index.js';
import type { RunOptions } from '../../units/index.js';
import type { Stereo } from '../mix/feed.js';
import { RATE } from '../sound/shot.js';
import { piecesOf } from './pieces.js';

const COMPRESSION = 5;
const BITS = 16;
/** Where the checksum of the audio stands in the file: after the marker, the block header and 18 bytes of the stream info. */
const MD5_PLACE = 4 + 4 + 18;
const FRAME_SIZE_PLACE = 4 + 4 + 4;

let library: Promise<Flac> | undefined;

/** Loads the encoder once. Its WebAssembly build fetches itself over HTTP, which Node refuses: the asm.js build is used. */
function loadLibrary(): Promise<Flac> {
  library ??= new Promise((resolve) => {
    const load = createRequire(import.meta.url)('libflacjs') as (variant: string) => Flac;
    const flac = load('min');
    if (flac.isReady()) resolve(flac);
    else flac.on('ready', () => resolve(flac));
  });
  return library;
}

function interleave({ left, right }: Stereo): Int32Array<ArrayBuffer> {
  const samples = new Int32Array(left.length * 2);
  const scale = 2 ** (BITS - 1) - 1;
  for (let i = 0; i < left.length; i++) {
    samples[2 * i] = Math.round(scale * left[i]);
    samples[2 * i + 1] = Math.round(scale * right[i]);
  }
  return samples;
}

/** Encodes two channels at 44.1 kHz as FLAC with 16 bits. */
export async function encodeFlac(audio: Stereo, options: RunOptions = {}): Promise<Uint8Array[]> {
  const flac = await loadLibrary();
  const encoder = flac.create_libflac_encoder(RATE, 2, BITS, COMPRESSION, audio.left.length, false);
  const parts: Uint8Array[] = [];
  let summary: { readonly min_framesize: number; readonly max_framesize: number; readonly md5sum: string } | undefined;
  const opened = flac.init_encoder_stream(
    encoder,
    (data) => void parts.push(data.slice()),
    (metadata) => (summary = metadata),
  );
  const failed = (): BarwiseError => new BarwiseError('cannot-write', 'The FLAC encoder failed.');
  try {
    if (opened !== 0) throw failed();
    for await (const piece of piecesOf(audio, options)) {
      if (!flac.FLAC__stream_encoder_process_interleaved(encoder, interleave(piece), piece.left.length)) throw failed();
    }
    if (!flac.FLAC__stream_encoder_finish(encoder)) throw failed();
  } finally {
    flac.FLAC__stream_encoder_delete(encoder);
  }
  const whole = Buffer.concat(parts);
  if (summary !== undefined) {
    // What is only known at the end is put back into the stream info at the front.
    whole.writeUIntBE(summary.min_framesize, FRAME_SIZE_PLACE, 3);
    whole.writeUIntBE(summary.max_framesize, FRAME_SIZE_PLACE + 3, 3);
    whole.write(summary.md5sum, MD5_PLACE, 'hex');
  }
  return [whole];
}
