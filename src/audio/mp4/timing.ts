import { text, viewOf } from '../bytes.js';
import { boxesIn, contentOf } from './boxes.js';

/** What is to be trimmed, in sample frames; `null` where the file does not say. */
export interface Timing {
  readonly skip: number | null;
  readonly frames: number | null;
}

/** Units of a second in a header box: `mvhd` or `mdhd` (ISO/IEC 14496-12, 8.2.2 and 8.4.2), and the duration in them. */
export function timescaleOf(header: Uint8Array | null): { scale: number; duration: number } | null {
  if (!header || header.length < 20) return null;
  const view = viewOf(header);
  if (header[0] === 0) return { scale: view.getUint32(12, false), duration: view.getUint32(16, false) };
  if (header.length < 32) return null;
  return { scale: view.getUint32(20, false), duration: Number(view.getBigUint64(24, false)) };
}

/** The first edit with media in it (8.6.6), in sample frames. */
export function readEdit(moov: Uint8Array, trak: Uint8Array, sampleRate: number): Timing | null {
  const list = contentOf(trak, 'edts', 'elst');
  const movie = timescaleOf(contentOf(moov, 'mvhd'));
  const media = timescaleOf(contentOf(trak, 'mdia', 'mdhd'));
  if (!list || !movie?.scale || !media?.scale || list.length < 8) return null;
  const view = viewOf(list);
  const long = list[0] === 1;
  const width = long ? 20 : 12;
  const count = Math.min(view.getUint32(4, false), Math.floor((list.length - 8) / width));
  for (let i = 0, at = 8; i < count; i++, at += width) {
    const duration = long ? Number(view.getBigUint64(at, false)) : view.getUint32(at, false);
    const start = long ? Number(view.getBigInt64(at + 8, false)) : view.getInt32(at + 4, false);
    if (start < 0) continue; // an empty edit
    const frames = Math.round((duration / movie.scale) * sampleRate);
    return { skip: Math.round((start / media.scale) * sampleRate), frames: frames > 0 ? frames : null };
  }
  return null;
}

/**
 * The gapless comment that common encoders leave: hexadecimal numbers, of which the second is the delay and the fourth
 * the length of the audio, both in samples (common practice, no source).
 */
export function readGapless(moov: Uint8Array): Timing | null {
  const meta = contentOf(moov, 'udta', 'meta');
  const list = meta && (contentOf(meta.subarray(4), 'ilst') ?? contentOf(meta, 'ilst'));
  if (!list) return null;
  for (const item of boxesIn(list)) {
    if (item.type !== '----') continue;
    const content = list.subarray(item.offset, item.offset + item.length);
    const name = contentOf(content, 'name');
    const data = contentOf(content, 'data');
    if (!name || !data || text(name, 4, 8) !== 'iTunSMPB') continue;
    const numbers = text(data, 8, data.length).trim().split(/\s+/).map((n) => parseInt(n, 16)); // prettier-ignore
    const [, delay, , length] = numbers;
    if (Number.isFinite(delay) && Number.isFinite(length)) return { skip: delay, frames: length > 0 ? length : null };
  }
  return null;
}
