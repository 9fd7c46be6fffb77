import { AAC_FRAME, aacChannels, withAdtsHeader } from '../aac/adts.js';
import { AAC_LEAD_IN } from '../aac/container.js';
import type { ByteRange } from '../bytes.js';
import { pieceFrames, type Piece } from '../decoder/pieces.js';
import { join } from '../join.js';
import type { AacConfig } from './config.js';
import type { SampleTable } from './samples.js';

/** Cuts a track into pieces; each becomes a bare AAC stream of its own. @param units how many access units are there */
export function mp4Pieces(table: SampleTable, units: number, config: AacConfig): Piece[] {
  const step = Math.floor(pieceFrames(aacChannels(config.channelConfig)) / AAC_FRAME);
  const pieces: Piece[] = [];
  for (let i = 0; i < units; i += step) pieces.push(pieceOf(table, config, i, Math.min(units, i + step)));
  return pieces;
}

function pieceOf(table: SampleTable, config: AacConfig, i: number, to: number): Piece {
  const lead = Math.max(0, i - AAC_LEAD_IN);
  return {
    start: i * AAC_FRAME,
    frames: (to - i) * AAC_FRAME,
    leadIn: (i - lead) * AAC_FRAME,
    async bytes(reader) {
      const parts: Uint8Array[] = [];
      for (let k = lead; k < to; k++) {
        const unit = await reader.at(table.offsets[k], table.sizes[k]);
        parts.push(withAdtsHeader(unit, config.rateIndex, config.channelConfig));
      }
      return join(parts);
    },
    halves() {
      if (to - i < 2) return null;
      const middle = (i + to) >> 1;
      return [pieceOf(table, config, i, middle), pieceOf(table, config, middle, to)];
    },
  };
}

/** The units' stretches of the file, in order, adjacent ones as one. */
export function unitRanges({ offsets, sizes }: SampleTable, units: number): ByteRange[] {
  const ranges: ByteRange[] = [];
  for (let i = 0; i < units;) {
    const offset = offsets[i];
    let end = offset;
    while (i < units && offsets[i] === end) end += sizes[i++];
    if (end === offset)
      i++; // an empty unit
    else ranges.push({ offset, length: end - offset });
  }
  return ranges;
}
