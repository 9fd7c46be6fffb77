import { BarwiseError } from '../../units/index.js';
import { AAC_FRAME } from '../aac/adts.js';
import { checkAac, USUAL_PRIMING } from '../aac/container.js';
import { text, viewOf, type ByteReader } from '../bytes.js';
import type { Container } from '../container.js';
import { pieceSource } from '../decoder/source.js';
import { endsEarly } from '../warnings.js';
import { boxesIn, contentOf, topBoxes } from './boxes.js';
import { entryName, readAacConfig, sampleEntry } from './config.js';
import { mp4Pieces, unitRanges } from './pieces.js';
import { readSampleTable } from './samples.js';
import { readEdit, readGapless } from './timing.js';

/** An index beyond this size is not one of a music file. */
const MAX_INDEX = 1 << 26;

/** Opens an M4A or MP4 file with AAC, wherever its index stands. */
export async function openMp4(reader: ByteReader, file: string): Promise<Container> {
  const moov = await readIndex(reader, file);
  const trak = audioTrack(moov);
  const stbl = trak && contentOf(trak, 'mdia', 'minf', 'stbl');
  const entry = stbl && sampleEntry(stbl);
  if (!entry) throw unsupported(file, 'no audio track');
  const config = entry.type === 'mp4a' ? readAacConfig(entry.content) : null;
  if (!config) throw unsupported(file, entryName(entry.type));
  const channels = checkAac(file, config.objectType, config.channelConfig);
  if (config.shortFrames || config.rateIndex < 0) throw unsupported(file, 'AAC of an unusual kind');
  const table = readSampleTable(stbl);
  if (!table || table.offsets.length === 0) {
    if (contentOf(moov, 'mvex')) throw unsupported(file, 'its audio in fragments');
    throw new BarwiseError('damaged', `${file} is an MP4 file without audio in it: copy the file again.`, { file });
  }
  // Units that overlap would have us read a small file for ever.
  if (table.sizes.reduce((sum, size) => sum + size, 0) > reader.size) {
    throw new BarwiseError('damaged', `${file} has an index that promises more than the file: copy it again.`, {
      file,
    });
  }
  const { sampleRate } = config;
  const there = table.offsets.findIndex((offset, i) => offset + table.sizes[i] > reader.size);
  const units = there < 0 ? table.offsets.length : there;
  if (units === 0) {
    throw new BarwiseError('damaged', `${file} ends before its audio begins: copy the file again.`, { file });
  }
  const gapless = readGapless(moov);
  const edit = readEdit(moov, trak, sampleRate);
  const skip = (edit?.skip ? edit.skip : gapless?.skip) ?? edit?.skip ?? USUAL_PRIMING;
  const whole = Math.max(0, table.offsets.length * AAC_FRAME - skip);
  // an edit list counts in the movie's units, often milliseconds; the other note counts samples
  const promised = Math.min(whole, gapless?.frames ?? edit?.frames ?? whole);
  const frames = Math.max(0, Math.min(promised, units * AAC_FRAME - skip));
  const list = { codec: 'aac', sampleRate, channels, skip, frames, pieces: mp4Pieces(table, units, config) } as const;
  return {
    codec: 'AAC',
    sampleRate,
    channels,
    frames,
    digestParts: [config.bytes, ...unitRanges(table, units)],
    warnings: endsEarly(promised, frames, sampleRate),
    source: (options) => pieceSource(file, list, options),
  };
}

async function readIndex(reader: ByteReader, file: string): Promise<Uint8Array> {
  const boxes = await topBoxes(reader);
  const moov = boxes.find((box) => box.type === 'moov');
  if (moov && !moov.cut && moov.length < MAX_INDEX) return reader.copy(moov.offset, moov.length);
  const why = boxes.some((box) => box.cut) ? 'ends early, before its index' : 'has no index';
  throw new BarwiseError('damaged', `${file} is an MP4 file that ${why}: copy the file again.`, { file });
}

/** The first track whose handler is sound. */
function audioTrack(moov: Uint8Array): Uint8Array | null {
  for (const box of boxesIn(moov)) {
    if (box.type !== 'trak') continue;
    const trak = moov.subarray(box.offset, box.offset + box.length);
    const handler = contentOf(trak, 'mdia', 'hdlr');
    if (handler && viewOf(handler).byteLength >= 12 && text(handler, 8) === 'soun') return trak;
  }
  return null;
}

function unsupported(file: string, what: string): BarwiseError {
  return new BarwiseError(
    'unsupported-format',
    `${file} is an MP4 file with ${what}, and only AAC-LC is read: convert it to FLAC or AAC-LC.`,
    { file },
  );
}
