import { BarwiseError, throwIfAborted } from '../../units/index.js';
import { openBytes, type ByteReader } from '../bytes.js';
import type { ReadOptions } from '../container.js';
import { makeFinite } from '../finite.js';
import type { AudioBlock, AudioSource } from '../source.js';
import { damagedFrames, slowDecoder, unusualSamples } from '../warnings.js';
import { NATIVE_PACKAGE, startDecoder, type DecoderProcess } from './client.js';
import { decodePiece, type Rendered } from './decodepiece.js';
import type { Piece, PieceList } from './pieces.js';
import { placeOnTimeline } from './timeline.js';

/** Pieces that are on their way at a time: one is decoded while another is used. */
const AHEAD = 2;
/** Frames in a block. */
const BLOCK = 1 << 16;

/** Reads a compressed file piece by piece through a decoding process, which starts with the first block. */
export function pieceSource(file: string, list: PieceList, options: ReadOptions): AudioSource {
  let decoder: DecoderProcess | null = null;
  let closed = false;

  async function* blocks(): AsyncGenerator<AudioBlock> {
    throwIfAborted(options.signal);
    const reader = await openBytes(file, options.signal);
    // AAC beyond stereo is more than the native decoder takes
    const choice = list.codec === 'aac' && list.channels > 2 ? 'wasm' : options.decoder;
    decoder = startDecoder(file, list.codec, choice, options);
    let unusual = 0;
    try {
      const engine = await decoder.engine;
      if (engine === 'wasm' && options.decoder === 'auto' && choice === 'auto') options.warnings.add(slow());
      const damage = { places: 0, first: 0, frames: 0 };
      const timeline = placeOnTimeline(list, renderAll(list, decoder, reader), damage);
      let done = 0;
      for await (const block of timeline) {
        if (closed) return;
        for (let at = 0; at < block[0].length; at += BLOCK) {
          throwIfAborted(options.signal);
          const part = block.map((samples) => samples.subarray(at, at + BLOCK));
          unusual += makeFinite(part);
          yield part;
        }
        decoder.giveBack(block);
        done += block[0].length;
        options.onProgress?.({ stage: 'decode', done: Math.min(1, done / list.frames) });
      }
      if (damage.places > 0) {
        if (damage.frames >= list.frames) throw undecodable(file);
        const first = damage.first / list.sampleRate;
        options.warnings.add(damagedFrames(damage.places, first, damage.frames / list.sampleRate));
      }
      if (unusual > 0) options.warnings.add(unusualSamples(unusual));
    } catch (error) {
      // what was on its way when the source was closed has failed, as it should
      if (!closed) throw error;
    } finally {
      decoder.close();
      await reader.close();
    }
  }

  return {
    sampleRate: list.sampleRate,
    channels: list.channels,
    frames: list.frames,
    blocks,
    close: () => {
      closed = true;
      decoder?.close();
      return Promise.resolve();
    },
  };
}

/** Decodes the pieces in order, the next ones already on their way. */
async function* renderAll(
  list: PieceList,
  decoder: DecoderProcess,
  reader: ByteReader,
): AsyncGenerator<readonly [Piece, Rendered]> {
  const coming: (readonly [Piece, Promise<Rendered>])[] = [];
  let next = 0;
  while (next < list.pieces.length || coming.length > 0) {
    while (coming.length < AHEAD && next < list.pieces.length) {
      const piece = list.pieces[next++];
      const rendered = decodePiece(piece, list, decoder, reader);
      rendered.catch(() => undefined);
      coming.push([piece, rendered]);
    }
    const [piece, rendered] = coming.shift()!;
    yield [piece, await rendered];
  }
}

function undecodable(file: string): BarwiseError {
  return new BarwiseError('damaged', `Nothing in ${file} could be decoded: copy the file again.`, { file });
}

function slow() {
  return slowDecoder(`The slower built-in decoder is used: the faster one needs ${NATIVE_PACKAGE}.`);
}
