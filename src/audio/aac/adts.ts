/** What the header of an ADTS frame says (ISO/IEC 13818-7 6.2). */
export interface AdtsHeader {
  /** 1 is Main, 2 Low Complexity, 3 SSR, 4 LTP. */
  readonly objectType: number;
  readonly rateIndex: number;
  readonly sampleRate: number;
  /** Channel configuration; 0 means that the stream itself says. */
  readonly channelConfig: number;
  readonly headerLength: number;
  /** Bytes of the whole frame. */
  readonly length: number;
}

/** Rates by index (ISO/IEC 14496-3 table 1.18). */
export const AAC_RATES = [96000, 88200, 64000, 48000, 44100, 32000, 24000, 22050, 16000, 12000, 11025, 8000] as const;

/** Sample frames of one access unit. */
export const AAC_FRAME = 1024;

/** Channels by configuration. */
export function aacChannels(config: number): number {
  return config === 7 ? 8 : config;
}

/** Reads an ADTS header; `null` where there is none. */
export function parseAdtsHeader(bytes: Uint8Array, at = 0): AdtsHeader | null {
  if (at + 7 > bytes.length || bytes[at] !== 0xff || (bytes[at + 1] & 0xf6) !== 0xf0) return null;
  const rateIndex = (bytes[at + 2] >> 2) & 15;
  const headerLength = bytes[at + 1] & 1 ? 7 : 9;
  const length = ((bytes[at + 3] & 3) << 11) | (bytes[at + 4] << 3) | (bytes[at + 5] >> 5);
  if (rateIndex >= AAC_RATES.length || length <= headerLength) return null;
  return {
    objectType: (bytes[at + 2] >> 6) + 1,
    rateIndex,
    sampleRate: AAC_RATES[rateIndex],
    channelConfig: ((bytes[at + 2] & 1) << 2) | (bytes[at + 3] >> 6),
    headerLength,
    length,
  };
}

/** Puts an ADTS header before a bare access unit. @returns a new array */
export function withAdtsHeader(unit: Uint8Array, rateIndex: number, channelConfig: number): Uint8Array {
  const length = unit.length + 7;
  const out = new Uint8Array(length);
  out[0] = 0xff;
  out[1] = 0xf1;
  out[2] = (1 << 6) | (rateIndex << 2) | (channelConfig >> 2);
  out[3] = ((channelConfig & 3) << 6) | (length >> 11);
  out[4] = (length >> 3) & 0xff;
  out[5] = ((length & 7) << 5) | 0x1f;
  out[6] = 0xfc;
  out.set(unit, 7);
  return out;
}
