import type * as ResvgModule from '@resvg/resvg-wasm';
import { escapeXml, type LadderTheme, type PathStyle } from '../../src/ladder/index.js';
import { loadOptional, type Face, type Faces, type FontPart } from './fonts.js';
import { lineRuns } from './runs.js';
import type { Surface } from './surface.js';
import type { Setting, Typesetter } from './typesetter.js';

/** A picture under way: a surface to draw on, and its SVG document so far. */
export interface Picture {
  readonly surface: Surface;
  /**
   * The document, self-contained: letters are outlines, so that it looks the same wherever it goes; what it says is in
   * its title and description.
   */
  readonly svg: (title: string, description: string, language: string) => string;
}

const short = (n: number): string => `${Math.round(n * 100) / 100}`;

/** Opens a picture of a size in points. */
export function openPicture(
  size: { readonly width: number; readonly height: number },
  paper: string,
  type: Typesetter,
  faces: Faces,
): Picture {
  const parts: string[] = [];
  const put = (text: string, x: number, y: number, setting: Setting): void => {
    const width = type.measure(text, setting.size, setting.bold ?? false);
    const start = setting.anchor === 'end' ? x - width : setting.anchor === 'middle' ? x - width / 2 : x;
    const d = outlines(text, start, y, setting.size, setting.bold === true ? faces.bold : faces.regular);
    if (d !== '') parts.push(`<path d="${d}" fill="${setting.colour}"/>`);
  };
  const surface: Surface = {
    type,
    element: (_parent, _tag, _options, draw) => draw(),
    artifact: (_kind, draw) => draw(),
    open: () => null,
    close: () => undefined,
    path: (d, style, colours, x, y) =>
      parts.push(
        `<path d="${d}"${x === 0 && y === 0 ? '' : ` transform="translate(${short(x)} ${short(y)})"`} ${paintOf(style, colours)}/>`,
      ),
    text: put,
  };
  const { width, height } = size;
  const svg = (title: string, description: string, language: string): string =>
    [
      `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="title description" lang="${language}"` +
        ` width="${short(width)}pt" height="${short(height)}pt" viewBox="0 0 ${short(width)} ${short(height)}">`,
      `<title id="title">${escapeXml(title)}</title>`,
      `<desc id="description">${escapeXml(description)}</desc>`,
      `<rect width="100%" height="100%" fill="${paper}"/>`,
      ...parts,
      '</svg>\n',
    ].join('\n');
  return { surface, svg };
}

function paintOf(style: PathStyle, colours: LadderTheme): string {
  if (style.stroke === undefined) return `fill="${colours[style.fill ?? 'ink']}"`;
  const cap = style.round === true ? ' stroke-linecap="round"' : '';
  const dash = style.dash === undefined ? '' : ` stroke-dasharray="${style.dash.map(short).join(' ')}"`;
  return `fill="none" stroke="${colours[style.stroke]}" stroke-width="${short(style.width ?? 1)}"${cap}${dash}`;
}

/** Height of the box that stands for a character without a glyph, and its width, as shares of the size. */
const BOX = { width: 0.6, height: 0.668, inset: 0.06 } as const;

/** A line of type as path data. */
function outlines(text: string, x: number, y: number, size: number, face: Face): string {
  const parts = new Map<string, FontPart>(face.flat().map((p) => [p.name, p]));
  let [d, at] = ['', x];
  for (const run of lineRuns(text, face)) {
    const font = run.font === null ? undefined : parts.get(run.font)?.font;
    if (font === undefined) {
      const [left, right] = [at + BOX.inset * size, at + (BOX.width - BOX.inset) * size];
      d += `M${short(left)} ${short(y)}V${short(y - BOX.height * size)}H${short(right)}V${short(y)}Z`;
      at += BOX.width * size;
      continue;
    }
    const scale = size / font.unitsPerEm;
    const { glyphs, positions } = font.layout(run.text);
    glyphs.forEach((glyph, i) => {
      const { xOffset, yOffset, xAdvance } = positions[i];
      const path = glyph.path
        .scale(scale, -scale)
        .translate(at + xOffset * scale, y - yOffset * scale)
        .toSVG();
      d += path.replace(/-?\d+\.\d+(e-\d+)?/g, (n) => short(Number(n)));
      at += xAdvance * scale;
    });
  }
  return d;
}

let rasteriser: Promise<typeof ResvgModule> | undefined;

/**
 * A picture as PNG.
 * @param pixels its width
 * @throws BarwiseError `missing-package` where @resvg/resvg-wasm is not installed
 */
export async function toPng(svg: string, pixels: number): Promise<Buffer> {
  rasteriser ??= loadRasteriser();
  rasteriser.catch(() => (rasteriser = undefined));
  const { Resvg } = await rasteriser;
  const picture = new Resvg(svg, { fitTo: { mode: 'width', value: pixels } });
  const rendered = picture.render();
  const png = Buffer.from(rendered.asPng());
  rendered.free();
  picture.free();
  return png;
}

async function loadRasteriser() {
  const name = '@resvg/resvg-wasm';
  const { createRequire } = await import('node:module');
  const { readFile } = await import('node:fs/promises');
  const resvg = await loadOptional(name, () => import('@resvg/resvg-wasm'));
  const file = createRequire(import.meta.url).resolve('@resvg/resvg-wasm/index_bg.wasm');
  await resvg.initWasm(await readFile(file));
  return resvg;
}
