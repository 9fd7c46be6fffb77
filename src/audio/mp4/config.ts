import { text, viewOf } from '../bytes.js';
import { AAC_RATES } from '../aac/adts.js';
import { boxesIn, contentOf } from './boxes.js';

/** What the decoder has to know of an AAC track. */
export interface AacConfig {
  /** 2 is AAC-LC; 5 when spectral band replication is announced in whichever way. */
  readonly objectType: number;
  readonly rateIndex: number;
  readonly sampleRate: number;
  readonly channelConfig: number;
  /** 960 samples a unit instead of 1024. */
  readonly shortFrames: boolean;
  readonly bytes: Uint8Array;
}

/** The kind of the first sample entry, e.g. `mp4a`, `alac`; `null` where there is none. */
export function sampleEntry(stbl: Uint8Array): { type: string; content: Uint8Array } | null {
  const stsd = contentOf(stbl, 'stsd');
  const box = stsd && boxesIn(stsd, 8)[0];
  return box ? { type: box.type, content: stsd.subarray(box.offset, box.offset + box.length) } : null;
}

/** AudioSpecificConfig of an `mp4a` entry (ISO/IEC 14496-1 7.2.6, 14496-3 1.6.2.1); `null` where it holds no AAC. */
export function readAacConfig(entry: Uint8Array): AacConfig | null {
  // versions 1 and 2 of the entry put more fields before the boxes
  const version = viewOf(entry).getUint16(8, false);
  const from = 28 + (version === 1 ? 16 : version === 2 ? 36 : 0);
  const inside = boxesIn(entry, from);
  const box = inside.find((b) => b.type === 'esds' || b.type === 'wave');
  if (!box) return null;
  const content = entry.subarray(box.offset, box.offset + box.length);
  const esds = box.type === 'wave' ? contentOf(content, 'esds') : content;
  const bytes = esds && decoderConfig(esds.subarray(4));
  return bytes && parseConfig(bytes);
}

/** Goes down the descriptors 3 → 4 → 5. */
function decoderConfig(bytes: Uint8Array): Uint8Array | null {
  let at = 0;
  const enter = (tag: number) => {
    if (bytes[at++] !== tag) return null;
    let length = 0;
    for (let k = 0; k < 4; k++) {
      const b = bytes[at++];
      length = (length << 7) | (b & 0x7f);
      if (!(b & 0x80)) break;
    }
    return length;
  };
  if (enter(3) === null) return null;
  const flags = bytes[at + 2];
  at += 3 + (flags & 0x80 ? 2 : 0) + (flags & 0x40 ? 1 + bytes[at + 3] : 0) + (flags & 0x20 ? 2 : 0);
  if (enter(4) === null) return null;
  const kind = bytes[at];
  // 0x40 is MPEG-4 audio, 0x66…0x68 MPEG-2 AAC
  if (kind !== 0x40 && !(kind >= 0x66 && kind <= 0x68)) return null;
  at += 13;
  const length = enter(5);
  return length === null ? null : bytes.slice(at, at + length);
}

function parseConfig(bytes: Uint8Array): AacConfig | null {
  let at = 0;
  const read = (width: number) => {
    let value = 0;
    for (let k = 0; k < width; k++, at++) value = value * 2 + ((bytes[at >> 3] >> (7 - (at & 7))) & 1);
    return value;
  };
  const readType = () => {
    const type = read(5);
    return type === 31 ? 32 + read(6) : type;
  };
  const readRate = () => {
    const index = read(4);
    return index === 15 ? read(24) : (AAC_RATES[index] ?? 0);
  };
  const objectType = readType();
  const sampleRate = readRate();
  const channelConfig = read(4);
  const shortFrames = read(1) === 1;
  if (read(1)) read(14);
  read(1);
  // announced behind the plain configuration, for the sake of older players
  const banded =
    objectType === 2 && bytes.length * 8 - at >= 17 && read(11) === 0x2b7 && readType() === 5 && read(1) === 1;
  return {
    objectType: banded ? 5 : objectType,
    rateIndex: (AAC_RATES as readonly number[]).indexOf(sampleRate),
    sampleRate,
    channelConfig,
    shortFrames,
    bytes,
  };
}

/** Names of what else an MP4 file may hold. */
export function entryName(type: string): string {
  const names: Record<string, string> = {
    alac: 'ALAC',
    drms: 'protected audio',
    enca: 'protected audio',
    'ac-3': 'AC-3',
    'ec-3': 'E-AC-3',
    Opus: 'Opus',
    fLaC: 'FLAC in MP4',
    '.mp3': 'MP3 in MP4',
  };
  return names[type] ?? `audio of type ${text(new TextEncoder().encode(type)).trim()}`;
}
