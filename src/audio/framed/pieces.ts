import { pieceFrames, type Piece } from '../decoder/pieces.js';
import { follows, type FrameWalk } from './walk.js';

/** What decoding frames on their own takes. */
export interface FrameDecoding {
  /** Sample frames of one frame. */
  readonly samples: number;
  readonly channels: number;
  /** Frames of lead-in. */
  readonly leadIn: number;
}

/** Cuts the stream into pieces of whole frames; a piece ends where frames were lost. @param from the first frame with audio */
export function framedPieces(walk: FrameWalk<unknown>, decoding: FrameDecoding, from: number): Piece[] {
  const most = Math.max(1, Math.floor(pieceFrames(decoding.channels) / decoding.samples));
  const pieces: Piece[] = [];
  for (let i = from, runStart = from; i < walk.offsets.length;) {
    if (!follows(walk, i)) runStart = i;
    let to = i + 1;
    while (to < walk.offsets.length && to - i < most && follows(walk, to)) to++;
    pieces.push(pieceOf(walk, decoding, walk.numbers[from], runStart, i, to));
    i = to;
  }
  return pieces;
}

/** Frames i … to − 1, with a lead-in that reaches back to the start of the run at most. */
function pieceOf(
  walk: FrameWalk<unknown>,
  decoding: FrameDecoding,
  base: number,
  runStart: number,
  i: number,
  to: number,
): Piece {
  const { samples } = decoding;
  const lead = Math.max(runStart, i - decoding.leadIn);
  const offset = walk.offsets[lead];
  const length = walk.offsets[to - 1] + walk.lengths[to - 1] - offset;
  return {
    start: (walk.numbers[i] - base) * samples,
    frames: (to - i) * samples,
    leadIn: (i - lead) * samples,
    bytes: (reader) => reader.copy(offset, length),
    halves() {
      if (to - i < 2) return null;
      const middle = (i + to) >> 1;
      return [pieceOf(walk, decoding, base, runStart, i, middle), pieceOf(walk, decoding, base, runStart, middle, to)];
    },
  };
}
