import type { LadderTheme, PathStyle } from '../../src/ladder/index.js';

/** Two decimals are a hundredth of a point, 4 µm. */
const short = (n: number): string => `${Math.round(n * 100) / 100}`;

/** Dashes add up along a line. */
const fine = (n: number): string => `${Math.round(n * 1e4) / 1e4}`;

const COMMAND = /([MLHVZ])([^MLHVZ]*)/g;

/**
 * Path data (SVG 1.1, absolute M, L, H, V and Z) as operators of a content stream (ISO 32000-1, 8.5.2), its origin
 * moved to (`x`, `y`). One string a path: a page has thousands of strokes.
 * @example pathOperators('M0 0H5', 1, 2) // '1 2 m 6 2 l '
 */
export function pathOperators(d: string, x: number, y: number): string {
  let out = '';
  let [atX, atY] = [x, y];
  for (const [, command, rest] of d.matchAll(COMMAND)) {
    if (command === 'Z') {
      out += 'h ';
      continue;
    }
    const numbers = rest.trim().split(/[ ,]+/).map(Number);
    if (command === 'H') atX = numbers[0] + x;
    else if (command === 'V') atY = numbers[0] + y;
    else [atX, atY] = [numbers[0] + x, numbers[1] + y];
    out += `${short(atX)} ${short(atY)} ${command === 'M' ? 'm' : 'l'} `;
  }
  return out;
}

/** The operators that draw path data in a style, leaving the graphics state as it was. */
export function paintOperators(d: string, style: PathStyle, colours: LadderTheme, x: number, y: number): string {
  const path = pathOperators(d, x, y);
  if (style.stroke === undefined) return `q ${rgb(colours[style.fill ?? 'ink'])} rg ${path}f Q`;
  const dash = style.dash === undefined ? '' : `[${style.dash.map(fine).join(' ')}] 0 d `;
  const cap = style.round === true ? 1 : 0;
  return `q ${rgb(colours[style.stroke])} RG ${short(style.width ?? 1)} w ${cap} J 0 j ${dash}${path}S Q`;
}

function rgb(colour: string): string {
  return [1, 3, 5]
    .map((from) => `${Math.round((parseInt(colour.slice(from, from + 2), 16) / 255) * 1e4) / 1e4}`)
    .join(' ');
}
