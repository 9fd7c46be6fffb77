/** Labels and lines that are there only to be shown later, in a front end that zooms. */
const INVISIBLE = /<(?:text|line)\b[^>]*\sopacity="0"[^>]*?(?:\/>|>[^<]*<\/text>)/g;

/**
 * The same drawing in about a third of the bytes: coordinates to a tenth of a pixel (vega writes seventeen digits), no
 * points in the middle of level stretches, nothing invisible, the typeface named once.
 * @experimental
 */
export function compactSvg(svg: string): string {
  const short = svg.replace(
    / (d|transform|x1|x2|y1|y2|x|y|width|height)="([^"]*)"/g,
    (_, name: string, value: string) => {
      const rounded = value.replace(/-?\d+\.\d{2,}(e-?\d+)?/g, (n) => String(Math.round(Number(n) * 10) / 10));
      return ` ${name}="${name === 'd' ? withoutMiddles(rounded) : rounded}"`;
    },
  );
  return fontOnce(short.replaceAll(' opacity="1"', '').replace(INVISIBLE, ''));
}

/** Drops the points of a polyline whose two neighbours are at the same height: they draw nothing. */
function withoutMiddles(path: string): string {
  const points = path.split('L');
  const heights = points.map((point) =>
    /[A-KN-Yac-y]/.test(point) ? NaN : Number(point.split(',')[1]?.replace('Z', '')),
  );
  const kept = points.filter((point, i) => {
    const isPlain = !point.includes('M') && !point.includes('Z');
    return !isPlain || heights[i] !== heights[i - 1] || heights[i] !== heights[i + 1];
  });
  return kept.join('L');
}

function fontOnce(svg: string): string {
  const fonts = new Set(svg.match(/ font-family="[^"]*"/g) ?? []);
  const [font] = fonts;
  if (fonts.size !== 1 || font === undefined) return svg;
  return svg.replaceAll(font, '').replace(/^<svg /, `<svg${font} `);
}
