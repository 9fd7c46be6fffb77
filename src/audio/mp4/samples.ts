import { viewOf } from '../bytes.js';
import { contentOf } from './boxes.js';

/** Where the access units of a track are in the file. */
export interface SampleTable {
  readonly offsets: readonly number[];
  readonly sizes: readonly number[];
}

/** Reads the sample table of a track (ISO/IEC 14496-12, 8.7); `null` where a part is missing. @param stbl content of the box */
export function readSampleTable(stbl: Uint8Array): SampleTable | null {
  const sizes = readSizes(stbl);
  const chunks = readChunks(stbl);
  const runs = contentOf(stbl, 'stsc');
  if (!sizes || !chunks || !runs || runs.length < 8) return null;
  const view = viewOf(runs);
  const count = Math.min(view.getUint32(4, false), Math.floor((runs.length - 8) / 12));
  const offsets: number[] = [];
  let done = 0;
  for (let r = 0; r < count; r++) {
    const first = view.getUint32(8 + r * 12, false) - 1;
    // Runs ascend; ones that went back again and again would keep us busy for ever.
    if (first < done) return null;
    const perChunk = view.getUint32(12 + r * 12, false);
    const next = r + 1 < count ? view.getUint32(8 + (r + 1) * 12, false) - 1 : chunks.length;
    done = Math.min(next, chunks.length);
    for (let c = first; c < done; c++) {
      let at = chunks[c];
      for (let k = 0; k < perChunk && offsets.length < sizes.length; k++) {
        offsets.push(at);
        at += sizes[offsets.length - 1];
      }
    }
  }
  return { offsets, sizes: sizes.slice(0, offsets.length) };
}

/** More access units than three hours can have at 192 kHz with 1024 frames in each: only a hostile file says so. */
const MOST_UNITS = 2_500_000;

function readSizes(stbl: Uint8Array): number[] | null {
  const stsz = contentOf(stbl, 'stsz');
  if (!stsz || stsz.length < 12) return null;
  const view = viewOf(stsz);
  const common = view.getUint32(4, false);
  const count = view.getUint32(8, false);
  if (common > 0) return count > MOST_UNITS ? null : Array<number>(count).fill(common);
  const there = Math.min(count, Math.floor((stsz.length - 12) / 4));
  return Array.from({ length: there }, (_, i) => view.getUint32(12 + i * 4, false));
}

function readChunks(stbl: Uint8Array): number[] | null {
  const short = contentOf(stbl, 'stco');
  const table = short ?? contentOf(stbl, 'co64');
  if (!table || table.length < 8) return null;
  const view = viewOf(table);
  const width = short ? 4 : 8;
  const count = Math.min(view.getUint32(4, false), Math.floor((table.length - 8) / width));
  return Array.from({ length: count }, (_, i) =>
    short ? view.getUint32(8 + i * 4, false) : Number(view.getBigUint64(8 + i * 8, false)),
  );
}
