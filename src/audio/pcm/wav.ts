import { BarwiseError } from '../../units/index.js';
import { text, viewOf, type ByteReader } from '../bytes.js';
import { endsEarly } from '../warnings.js';
import type { PcmLayout, SampleFormat } from './layout.js';

const PCM = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;
/** A size of all ones: unknown (written by a program that streams), or in ds64 for RF64. */
const UNKNOWN = 0xffffffff;

/**
 * Finds the samples of a RIFF/WAVE or RF64 file.
 * Sources: "Multimedia Programming Interface and Data Specifications 1.0" (IBM, Microsoft 1991); "Multiple channel audio
 * data and WAVE files" (Microsoft 2001); EBU Tech 3306 (RF64, 2009).
 * @throws BarwiseError `unsupported-format` for compressed samples, `damaged` without format or samples
 */
export async function readWav(reader: ByteReader, file: string, start: number): Promise<PcmLayout> {
  const riff = await reader.at(start, 12);
  const rf64 = text(riff) === 'RF64' || text(riff) === 'BW64';
  let long: { riff: number; data: number } | null = null;
  let format: ReturnType<typeof readFormat> | null = null;
  for (let offset = start + 12; offset + 8 <= reader.size;) {
    const head = await reader.at(offset, 8);
    if (head.length < 8) break;
    const id = text(head);
    const stated = viewOf(head).getUint32(4, true);
    const body = offset + 8;
    if (id === 'ds64' && rf64) {
      const view = viewOf(await reader.at(body, 28));
      if (view.byteLength >= 16) {
        long = { riff: Number(view.getBigUint64(0, true)), data: Number(view.getBigUint64(8, true)) };
      }
    } else if (id === 'fmt ') {
      format = readFormat(await reader.copy(body, Math.min(stated, 40)), file);
    } else if (id === 'data') {
      if (!format) throw damaged(file, 'its format chunk is missing');
      const size = stated === UNKNOWN && long ? long.data : stated;
      return layoutOf(format, body, size, reader.size - body);
    }
    offset = body + stated + (stated & 1);
  }
  throw damaged(file, format ? 'it holds no samples' : 'its format chunk is missing');
}

function layoutOf(format: ReturnType<typeof readFormat>, offset: number, stated: number, there: number): PcmLayout {
  const step = format.channels * format.format.bytes;
  // 0 and all ones are what a program leaves behind that could not go back to fill the size in
  const open = stated === UNKNOWN || (stated === 0 && there > 0);
  const frames = Math.floor(Math.min(open ? there : stated, there) / step);
  const promised = Math.floor(stated / step);
  return {
    ...format,
    frames,
    offset,
    warnings: open ? [] : endsEarly(promised, frames, format.sampleRate),
  };
}

function readFormat(bytes: Uint8Array, file: string) {
  if (bytes.length < 16) throw damaged(file, 'its format chunk is too short');
  const view = viewOf(bytes);
  const tag = view.getUint16(0, true);
  // the first two bytes of the sub-format's identifier are the plain tag
  const kind = tag === EXTENSIBLE && bytes.length >= 26 ? view.getUint16(24, true) : tag;
  const channels = view.getUint16(2, true);
  const bits = view.getUint16(14, true);
  const width = channels > 0 ? view.getUint16(12, true) / channels : 0;
  const format = sampleFormat(kind, width);
  if (!format) {
    const what = kind === PCM || kind === FLOAT ? `${bits}-bit samples` : `compressed samples (format ${kind})`;
    throw new BarwiseError('unsupported-format', `${file} is a WAV file with ${what}: convert it to 16-bit PCM.`, {
      file,
    });
  }
  return {
    codec: format.kind === 'float' ? `WAV ${width * 8}-bit float` : `WAV ${bits}-bit`,
    sampleRate: view.getUint32(4, true),
    channels,
    format,
    configuration: bytes.slice(0, 16),
  };
}

function sampleFormat(kind: number, width: number): SampleFormat | null {
  if (kind === FLOAT && (width === 4 || width === 8)) return { kind: 'float', bytes: width, littleEndian: true };
  if (kind !== PCM) return null;
  if (width === 1) return { kind: 'unsigned', bytes: 1, littleEndian: true };
  return width === 2 || width === 3 || width === 4 ? { kind: 'integer', bytes: width, littleEndian: true } : null;
}

function damaged(file: string, why: string): BarwiseError {
  return new BarwiseError('damaged', `${file} is a WAV file but ${why}: copy or export it again.`, { file });
}
