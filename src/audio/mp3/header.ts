/** What the four bytes at the head of an MPEG audio frame say. */
export interface MpegHeader {
  readonly version: 1 | 2 | 2.5;
  readonly layer: 1 | 2 | 3;
  readonly protected: boolean;
  /** kbit/s. */
  readonly bitrate: number;
  readonly sampleRate: number;
  readonly channels: 1 | 2;
  /** Bytes of the whole frame. */
  readonly length: number;
  /** Sample frames it decodes to. */
  readonly samples: number;
}

// Tables of ISO/IEC 11172-3 (1993) 2.4.2.3 and ISO/IEC 13818-3 (1998) 2.4.2.3; rates of "2.5" are common practice.
const RATES: Record<number, readonly number[]> = {
  1: [44100, 48000, 32000],
  2: [22050, 24000, 16000],
  2.5: [11025, 12000, 8000],
};
const KBITS: Record<string, readonly number[]> = {
  '1.1': [0, 32, 64, 96, 128, 160, 192, 224, 256, 288, 320, 352, 384, 416, 448],
  '1.2': [0, 32, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320, 384],
  '1.3': [0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320],
  '2.1': [0, 32, 48, 56, 64, 80, 96, 112, 128, 144, 160, 176, 192, 224, 256],
  '2.2': [0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160],
  '2.3': [0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160],
};

/** Reads a frame header; `null` where there is none or its bit rate is not stated ("free format"). */
export function parseMpegHeader(bytes: Uint8Array, at = 0): MpegHeader | null {
  if (at + 4 > bytes.length || bytes[at] !== 0xff || (bytes[at + 1] & 0xe0) !== 0xe0) return null;
  const version = ([2.5, null, 2, 1] as const)[(bytes[at + 1] >> 3) & 3];
  const layer = ([null, 3, 2, 1] as const)[(bytes[at + 1] >> 1) & 3];
  const rateIndex = (bytes[at + 2] >> 2) & 3;
  const bitIndex = bytes[at + 2] >> 4;
  if (!version || !layer || rateIndex === 3 || bitIndex === 0 || bitIndex === 15 || (bytes[at + 3] & 3) === 2)
    return null;
  const sampleRate = RATES[version][rateIndex];
  const bitrate = KBITS[`${version === 1 ? 1 : 2}.${layer}`][bitIndex];
  const padding = (bytes[at + 2] >> 1) & 1;
  const samples = layer === 1 ? 384 : layer === 3 && version !== 1 ? 576 : 1152;
  const length =
    layer === 1
      ? (Math.floor((12000 * bitrate) / sampleRate) + padding) * 4
      : Math.floor(((samples / 8) * 1000 * bitrate) / sampleRate) + padding;
  return {
    version,
    layer,
    protected: (bytes[at + 1] & 1) === 0,
    bitrate,
    sampleRate,
    channels: bytes[at + 3] >> 6 === 3 ? 1 : 2,
    length,
    samples,
  };
}

/** Whether two headers can belong to one stream: all but bit rate and padding stay as they are. */
export function sameStream(a: MpegHeader, b: MpegHeader): boolean {
  return a.version === b.version && a.layer === b.layer && a.sampleRate === b.sampleRate && a.channels === b.channels;
}
