import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { afterAll, describe, expect, test } from 'vitest';
import { VARIANTS } from '../../ladder/variants.js';
import { EXTREMES } from '../../reports/extremes.js';
import { bytesOf, PIECES } from '../../reports/pieces.js';
import { compare } from './compare.js';

/** Pixels to the inch: enough to see every line of type, small enough to be kept. */
const RESOLUTION = 50;
/** Most pages of a piece that are kept. */
const PAGES = 2;
const REFERENCES = new URL('references/', import.meta.url).pathname;
const RENEW = process.env.UPDATE_PICTURES === '1';

const poppler = spawnSync('pdftoppm', ['-v']).status === 0;
const scratch = mkdtempSync(join(tmpdir(), 'barwise-pages-'));
afterAll(() => rmSync(scratch, { recursive: true }));

/** The pages of a piece in grey, as another reader of PDFs draws them. */
function pagesOf(name: string, bytes: Buffer): readonly PNG[] {
  const file = join(scratch, `${name}.pdf`);
  writeFileSync(file, bytes);
  execFileSync('pdftoppm', ['-r', `${RESOLUTION}`, '-gray', '-l', `${PAGES}`, '-png', file, join(scratch, name)]);
  const made = readdirSync(scratch).filter((f) => f.startsWith(`${name}-`) && f.endsWith('.png'));
  return made.sort().map((f) => PNG.sync.read(readFileSync(join(scratch, f))));
}

const plain = Object.keys(PIECES).map((piece) => ({ piece, track: 'plain', make: VARIANTS.plain }));
const edge = ['card of A6', 'lesson', 'worksheet of level 1'].flatMap((piece) =>
  ['12 bars', '600 bars', '40 irregularities'].map((track) => ({ piece, track, make: EXTREMES[track] })),
);

describe.skipIf(!poppler)(`pages look as they were last looked at${poppler ? '' : ' (needs poppler-utils)'}`, () => {
  test.each([...plain, ...edge])('$piece of $track', async ({ piece, track, make }) => {
    const name = `${piece} ${track}`.replace(/[^A-Za-z0-9]+/g, '-').toLowerCase();
    const pages = pagesOf(name, await bytesOf(piece, make()));
    pages.forEach((now, i) => {
      const reference = join(REFERENCES, `${name}-${i + 1}.png`);
      if (RENEW) return writeFileSync(reference, PNG.sync.write(now, { colorType: 0, bitDepth: 8, deflateLevel: 9 }));
      expect(existsSync(reference), `${reference} is not there: make it with UPDATE_PICTURES=1 and look at it`).toBe(
        true,
      );
      const before = PNG.sync.read(readFileSync(reference));
      expect([now.width, now.height]).toEqual([before.width, before.height]);
      const { blocks, difference } = compare(now, before);
      const shown = join(tmpdir(), `${name}-${i + 1}-difference.png`);
      if (blocks > 0) writeFileSync(shown, PNG.sync.write(difference));
      expect(blocks, `${name}, page ${i + 1} looks different: see ${shown}; UPDATE_PICTURES=1 renews the picture`).toBe(
        0,
      );
    });
  });
});

test('a comparison sees a moved word and no rounding', () => {
  const page = (mark: (x: number, y: number) => number): PNG => {
    const picture = new PNG({ width: 60, height: 60 });
    for (let y = 0; y < 60; y++)
      for (let x = 0; x < 60; x++) picture.data.fill(mark(x, y), (y * 60 + x) * 4, (y * 60 + x) * 4 + 3);
    return picture;
  };
  const word = (left: number) => page((x, y) => (y >= 20 && y < 26 && x >= left && x < left + 20 ? 60 : 255));
  const rounded = page((x, y) => (y >= 20 && y < 26 && x >= 10 && x < 30 ? 60 + ((x + y) % 3) * 4 : 255));
  expect(compare(word(10), word(10)).blocks).toBe(0);
  expect(compare(word(10), rounded).blocks).toBe(0);
  expect(compare(word(10), word(13)).blocks).toBeGreaterThan(0);
});
