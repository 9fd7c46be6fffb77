import type { Frames } from '../../units/index.js';
import type { ByteReader } from '../bytes.js';
import type { AudioBlock } from '../source.js';
import type { DecoderProcess } from './client.js';
import type { Piece, PieceList } from './pieces.js';

/** What a piece gave: stretches that were decoded, by their place in the untrimmed audio; what is missing is lost. */
export type Rendered = readonly { readonly start: Frames; readonly block: AudioBlock }[];

/**
 * Decodes one piece. Samples are placed by the end of the output, because the end is known and the lead-in may give less
 * than it should. Where the output is too short a damaged packet was dropped: the piece is halved until it is found.
 */
export async function decodePiece(
  piece: Piece,
  list: PieceList,
  decoder: DecoderProcess,
  reader: ByteReader,
): Promise<Rendered> {
  const whole = await decoder.decode(await piece.bytes(reader), list.sampleRate);
  const channels = whole?.channels.slice(0, list.channels);
  const fits = channels?.length === list.channels && whole?.sampleRate === list.sampleRate;
  if (channels && fits) {
    const got = channels[0].length;
    if (got >= piece.leadIn + piece.frames) {
      const from = got - piece.frames;
      return [{ start: piece.start, block: channels.map((c) => c.subarray(from)) }];
    }
  }
  const halves = piece.halves();
  if (!halves) return channels && fits ? salvage(piece, channels) : [];
  const first = await decodePiece(halves[0], list, decoder, reader);
  return [...first, ...(await decodePiece(halves[1], list, decoder, reader))];
}

/** The shortest piece there is came out too short: the fault lies in the lead-in if a whole piece is there all the same. */
function salvage(piece: Piece, channels: AudioBlock): Rendered {
  const got = channels[0].length;
  if (got < piece.frames || piece.leadIn === 0) return [];
  return [{ start: piece.start, block: channels.map((c) => c.subarray(got - piece.frames)) }];
}
