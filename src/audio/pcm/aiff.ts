import { BarwiseError } from '../../units/index.js';
import { text, viewOf, type ByteReader } from '../bytes.js';
import { endsEarly } from '../warnings.js';
import type { PcmLayout, SampleFormat } from './layout.js';

interface Common {
  readonly channels: number;
  readonly frames: number;
  readonly sampleRate: number;
  readonly format: SampleFormat;
  readonly codec: string;
  readonly configuration: Uint8Array;
}

/**
 * Finds the samples of an AIFF or AIFF-C file (PCM and float).
 * Sources: "Audio Interchange File Format: AIFF" 1.3 (1989) and "AIFF-C" draft (1991).
 * @throws BarwiseError `unsupported-format` for compressed samples, `damaged` without format or samples
 */
export async function readAiff(reader: ByteReader, file: string, start: number): Promise<PcmLayout> {
  const compressed = text(await reader.at(start, 12), 8) === 'AIFC';
  let common: Common | null = null;
  let sound: { offset: number; length: number } | null = null;
  for (let offset = start + 12; offset + 8 <= reader.size && !(common && sound);) {
    const head = await reader.at(offset, 16);
    if (head.length < 8) break;
    const size = viewOf(head).getUint32(4, false);
    if (text(head) === 'COMM') {
      common = readCommon(await reader.copy(offset + 8, Math.min(size, 22)), compressed, file);
    } else if (text(head) === 'SSND' && head.length === 16) {
      const gap = viewOf(head).getUint32(8, false);
      sound = { offset: offset + 16 + gap, length: Math.max(0, size - 8 - gap) };
    }
    offset += 8 + size + (size & 1);
  }
  if (!common) throw damaged(file, 'its format chunk is missing');
  if (!sound) {
    if (common.frames > 0) throw damaged(file, 'it holds no samples');
    sound = { offset: reader.size, length: 0 };
  }
  const step = common.channels * common.format.bytes;
  const there = Math.floor(Math.max(0, Math.min(sound.length, reader.size - sound.offset)) / step);
  const frames = Math.min(common.frames, there);
  return {
    ...common,
    frames,
    offset: sound.offset,
    warnings: endsEarly(common.frames, frames, common.sampleRate),
  };
}

function readCommon(bytes: Uint8Array, compressed: boolean, file: string): Common {
  if (bytes.length < 18) throw damaged(file, 'its format chunk is too short');
  const view = viewOf(bytes);
  const bits = view.getInt16(6, false);
  const type = compressed && bytes.length >= 22 ? text(bytes, 18) : 'NONE';
  const format = sampleFormat(type, Math.ceil(bits / 8));
  const channels = view.getInt16(0, false);
  if (!format) {
    throw new BarwiseError(
      'unsupported-format',
      `${file} is an AIFF file with compressed samples (${type.trim()}): convert it to 16-bit PCM.`,
      { file },
    );
  }
  return {
    channels,
    frames: view.getUint32(2, false),
    sampleRate: extended(view, 8),
    format,
    codec: format.kind === 'float' ? `AIFF ${format.bytes * 8}-bit float` : `AIFF ${bits}-bit`,
    configuration: bytes.slice(0, compressed ? 22 : 18),
  };
}

function sampleFormat(type: string, width: number): SampleFormat | null {
  const integer = (bytes: number, littleEndian: boolean): SampleFormat | null =>
    bytes >= 1 && bytes <= 4 ? { kind: 'integer', bytes: bytes as 1 | 2 | 3 | 4, littleEndian } : null;
  switch (type.toLowerCase()) {
    case 'none':
    case 'twos':
      return integer(width, false);
    case 'sowt':
      return integer(width, true);
    case 'in24':
      return integer(3, false);
    case 'in32':
      return integer(4, false);
    case 'fl32':
      return { kind: 'float', bytes: 4, littleEndian: false };
    case 'fl64':
      return { kind: 'float', bytes: 8, littleEndian: false };
    default:
      return null;
  }
}

/** The 80-bit extended number (IEEE 754-1985) that AIFF uses for the rate. */
function extended(view: DataView, at: number): number {
  const exponent = view.getUint16(at, false) & 0x7fff;
  return Number(view.getBigUint64(at + 2, false)) * 2 ** (exponent - 16383 - 63);
}

function damaged(file: string, why: string): BarwiseError {
  return new BarwiseError('damaged', `${file} is an AIFF file but ${why}: copy or export it again.`, { file });
}
