import { PNG } from 'pngjs';
import { COLOURS } from './theme.js';

/** A matrix to be painted: `values[row * columns + column]` from 0 (paper) to 1 (deep), row 0 at the bottom. */
export interface Picture {
  readonly values: Float32Array;
  readonly columns: number;
  readonly rows: number;
}

/** Steps of the colour scale: more cannot be told apart by eye, fewer would show as contours. */
const STEPS = 48;

const SCALE = colourScale([COLOURS.paper, COLOURS.pale, COLOURS.middle, COLOURS.deep]);

/** A matrix as the data URI of a PNG in one hue from light to dark, one pixel a value. */
export function pictureUri({ values, columns, rows }: Picture): string {
  const png = new PNG({ width: columns, height: rows, colorType: 2, inputHasAlpha: true });
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const value = Math.min(1, Math.max(0, values[row * columns + column]));
      const colour = SCALE[Math.round(value * (STEPS - 1))];
      const at = ((rows - 1 - row) * columns + column) * 4;
      png.data[at] = colour[0];
      png.data[at + 1] = colour[1];
      png.data[at + 2] = colour[2];
      png.data[at + 3] = 255;
    }
  }
  const bytes = PNG.sync.write(png, { colorType: 2, deflateLevel: 9, deflateStrategy: 0, filterType: 0 });
  return `data:image/png;base64,${bytes.toString('base64')}`;
}

function colourScale(stops: readonly string[]): readonly (readonly number[])[] {
  const colours = stops.map((hex) => [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16)));
  return Array.from({ length: STEPS }, (_, step) => {
    const x = (step / (STEPS - 1)) * (colours.length - 1);
    const i = Math.min(Math.floor(x), colours.length - 2);
    return colours[i].map((c, channel) => Math.round(c + (x - i) * (colours[i + 1][channel] - c)));
  });
}
