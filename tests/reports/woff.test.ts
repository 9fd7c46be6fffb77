import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { create } from 'fontkit';
import { expect, test } from 'vitest';
import { unpackWoff } from '../../reports/layout/woff.js';

const FILES = ['noto-sans/files/noto-sans-greek-400-normal', 'vazirmatn/files/vazirmatn-arabic-700-normal'];

test.each(FILES)('%s has the same letters unpacked as packed', (file) => {
  const packed = readFileSync(createRequire(import.meta.url).resolve(`@fontsource/${file}.woff`));
  const plain = unpackWoff(packed);
  // OpenType 1.9, table directory: TrueType outlines begin with version 1.0.
  expect(plain.readUInt32BE(0)).toBe(0x00010000);
  const [one, other] = [create(packed), create(plain)];
  if (!('characterSet' in one) || !('characterSet' in other)) throw new Error('not a single font');
  expect(other.characterSet).toEqual(one.characterSet);
  for (const code of one.characterSet.slice(0, 40)) {
    const outline = (font: typeof one) => font.glyphForCodePoint(code).path.toSVG();
    expect(outline(other)).toBe(outline(one));
  }
  // The checksums are those of the tables as they stand (OpenType 1.9, calculating checksums).
  for (let i = 0; i < plain.readUInt16BE(4); i++) {
    const at = 12 + 16 * i;
    if (plain.toString('latin1', at, at + 4) === 'head') continue;
    const [sum, offset, length] = [4, 8, 12].map((field) => plain.readUInt32BE(at + field));
    let added = 0;
    for (let k = 0; k < length; k += 4) added = (added + plain.readUInt32BE(offset + k)) >>> 0;
    expect(added).toBe(sum);
  }
});

test('what is no packed font is left alone', () => {
  const bytes = Buffer.from('no font at all');
  expect(unpackWoff(bytes)).toBe(bytes);
});
