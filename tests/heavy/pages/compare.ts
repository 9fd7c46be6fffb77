import { PNG } from 'pngjs';

/** Side of a block, in pixels: rounding inside it is evened out, a letter that moved is not. */
const BLOCK = 6;
/** Difference of the mean grey of a block, of 255, from which the two pictures differ there. */
const SEEN = 20;

export interface Comparison {
  /** Blocks in which the pictures differ. */
  readonly blocks: number;
  /** The picture as it is, pale, and black where the other differs. */
  readonly difference: PNG;
}

/** Compares two pictures of one size by the mean grey of blocks, laid a second time half a block off. */
export function compare(now: PNG, before: PNG): Comparison {
  const { width, height } = now;
  const difference = new PNG({ width, height });
  for (let i = 0; i < now.data.length; i += 4)
    difference.data.fill(200 + now.data[i] * 0.2, i, i + 3).fill(255, i + 3, i + 4);
  let blocks = 0;
  for (const shift of [0, BLOCK / 2]) {
    for (let y = shift; y < height; y += BLOCK) {
      for (let x = shift; x < width; x += BLOCK) {
        if (Math.abs(mean(now, x, y) - mean(before, x, y)) < SEEN) continue;
        blocks++;
        eachPixel(difference, x, y, (i) => difference.data.fill(0, i, i + 3));
      }
    }
  }
  return { blocks, difference };
}

function mean(picture: PNG, x: number, y: number): number {
  let [sum, count] = [0, 0];
  eachPixel(picture, x, y, (i) => {
    sum += picture.data[i];
    count++;
  });
  return sum / count;
}

function eachPixel({ width, height }: PNG, x: number, y: number, visit: (index: number) => void): void {
  for (let row = y; row < Math.min(height, y + BLOCK); row++)
    for (let column = x; column < Math.min(width, x + BLOCK); column++) visit((row * width + column) * 4);
}
