import { inflateSync } from 'node:zlib';

/** Bytes of the headers and of a table's entry, packed (WOFF 1.0, W3C 2012, sections 3 and 4) and plain (OpenType 1.9). */
const PACKED = { signature: 0x774f4646, header: 44, entry: 20 } as const;
const PLAIN = { header: 12, entry: 16 } as const;

const padded = (length: number): number => (length + 3) & ~3;

/**
 * A font without its packing. A WOFF is unpacked anew by fontkit each time that a glyph is looked for, which takes minutes
 * with thousands of glyphs.
 * @returns the bytes as they are where they are no WOFF
 */
export function unpackWoff(woff: Buffer): Buffer {
  if (woff.length < PACKED.header || woff.readUInt32BE(0) !== PACKED.signature) return woff;
  const count = woff.readUInt16BE(12);
  const tables = Array.from({ length: count }, (_, i) => {
    const at = PACKED.header + i * PACKED.entry;
    const [offset, packedLength, length] = [4, 8, 12].map((field) => woff.readUInt32BE(at + field));
    const packed = woff.subarray(offset, offset + packedLength);
    const data = packedLength < length ? inflateSync(packed) : packed;
    return { tag: woff.subarray(at, at + 4), checksum: woff.readUInt32BE(at + 16), data };
  });
  const directory = PLAIN.header + count * PLAIN.entry;
  const font = Buffer.alloc(tables.reduce((sum, { data }) => sum + padded(data.length), directory));
  const power = Math.floor(Math.log2(count));
  font.writeUInt32BE(woff.readUInt32BE(4), 0);
  font.writeUInt16BE(count, 4);
  font.writeUInt16BE(16 * 2 ** power, 6);
  font.writeUInt16BE(power, 8);
  font.writeUInt16BE(16 * (count - 2 ** power), 10);
  let offset = directory;
  tables.forEach(({ tag, checksum, data }, i) => {
    const at = PLAIN.header + i * PLAIN.entry;
    font.set(tag, at);
    font.writeUInt32BE(checksum, at + 4);
    font.writeUInt32BE(offset, at + 8);
    font.writeUInt32BE(data.length, at + 12);
    font.set(data, offset);
    offset += padded(data.length);
  });
  return font;
}
