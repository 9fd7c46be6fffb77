/** Tables for cyclic redundancy checks, most significant bit first, start value 0. */
function table(width: 8 | 16 | 32, polynomial: number): Uint32Array {
  const top = 2 ** (width - 1);
  const mask = 2 ** width - 1;
  return Uint32Array.from({ length: 256 }, (_, byte) => {
    let value = (byte * 2 ** (width - 8)) >>> 0;
    for (let bit = 0; bit < 8; bit++) {
      const carry = (value & top) !== 0;
      value = (((value << 1) ^ (carry ? polynomial : 0)) & mask) >>> 0;
    }
    return value;
  });
}

const CRC8 = table(8, 0x07);
/** CRC-16 table of FLAC frames (polynomial 0x8005). */
export const CRC16 = table(16, 0x8005);
const CRC32 = table(32, 0x04c11db7);

/** CRC-8 of FLAC frame headers (polynomial 0x07). */
export function crc8(bytes: Uint8Array, from: number, to: number): number {
  let crc = 0;
  for (let i = from; i < to; i++) crc = CRC8[crc ^ bytes[i]];
  return crc;
}

/** CRC-32 of Ogg pages (polynomial 0x04c11db7). */
export function crc32(bytes: Uint8Array): number {
  let crc = 0;
  for (let i = 0; i < bytes.length; i++) crc = (crc << 8) ^ CRC32[((crc >>> 24) ^ bytes[i]) & 0xff];
  return crc >>> 0;
}
