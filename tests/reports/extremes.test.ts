import { describe, expect, test } from 'vitest';
import { BarwiseError } from '../../src/units/index.js';
import { SMALLEST_TYPE } from '../../reports/layout/type.js';
import { EXTREMES } from './extremes.js';
import { bytesOf, PIECES } from './pieces.js';
import { readPdf, type PdfText } from './read-pdf.js';

/** Nearest that type comes to the edge of a page, in points: marks of the order of cutting come nearest. */
const EDGE = 2;

/** What letters cover: from the top of capitals to the baseline, a little less in width for rounding. */
function overlap(a: PdfText, b: PdfText): boolean {
  const slack = 0.05;
  const [aTop, bTop] = [a.y - a.size * 0.67, b.y - b.size * 0.67];
  const across = a.x < b.x + b.width - slack && b.x < a.x + a.width - slack;
  return across && aTop < b.y - slack && bTop < a.y - slack;
}

/** Texts on each other, each pair once: from top to bottom, so that only neighbours are compared. */
function overlaps(texts: readonly PdfText[]): readonly string[] {
  const sorted = [...texts].filter((t) => t.text !== '').sort((a, b) => a.y - b.y);
  return sorted.flatMap((one, i) => {
    const found: string[] = [];
    for (let k = i + 1; k < sorted.length && sorted[k].y - sorted[k].size < one.y; k++)
      if (overlap(one, sorted[k])) found.push(`${one.text} / ${sorted[k].text}`);
    return found;
  });
}

async function printed(piece: string, name: string) {
  try {
    return (await readPdf(await bytesOf(piece, EXTREMES[name]()))).pages;
  } catch (error) {
    // Too little is sure for a worksheet, or the records do not meet: that is said, and nothing is printed.
    if (error instanceof BarwiseError && error.code === 'bad-option') return [];
    throw error;
  }
}

describe.each(Object.keys(PIECES))('a %s', (piece) => {
  test.each(Object.keys(EXTREMES))(
    'of a track with %s: nothing too small, off the page or on another text',
    async (name) => {
      for (const [i, { texts, width, height }] of (await printed(piece, name)).entries()) {
        const page = `page ${i + 1}`;
        expect(
          texts.filter((t) => t.size < SMALLEST_TYPE - 1e-3),
          page,
        ).toEqual([]);
        const off = (t: PdfText) =>
          t.x < EDGE || t.x + t.width > width - EDGE || t.y > height - EDGE || t.y - t.size * 0.67 < EDGE;
        expect(
          texts.filter(off).map((t) => t.text),
          page,
        ).toEqual([]);
        expect(overlaps(texts), page).toEqual([]);
      }
    },
  );
});
