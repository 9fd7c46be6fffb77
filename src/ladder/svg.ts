import { describeLadder } from './describe.js';
import type { BarCell, LadderGeometry, LadderPage, TextLine } from './geometry.js';
import { short } from './hatch.js';
import { paintLadder, type LadderPen, type PathStyle } from './paint.js';
import { LIGHT_THEME, type LadderTheme } from './theme.js';
import { ENGLISH, type LadderWords } from './words.js';

export interface LadderSvgOptions {
  /** What the picture is of, e.g. artist and title; it becomes the accessible name. */
  readonly title?: string;
  /** Makes the ids of title and description unique on a page with several ladders; letters, digits, hyphens. */
  readonly id?: string;
  /** Page of the geometry, from 0. */
  readonly page?: number;
  /** Paints the background; default true. */
  readonly background?: boolean;
  readonly words?: LadderWords;
}

const FONTS = "'Atkinson Hyperlegible','DejaVu Sans',Verdana,sans-serif";

/**
 * One page of a ladder as a self-contained SVG document. Every bar has a `<rect class="bar">` over it with `data-bar`,
 * `data-start`, `data-end` (seconds) and `data-phrase`: transparent, ready to be lit up and pointed at.
 */
export function ladderToSvg(
  geometry: LadderGeometry,
  theme: LadderTheme = LIGHT_THEME,
  options: LadderSvgOptions = {},
): string {
  const page = geometry.pages[options.page ?? 0];
  const [width, height] = [geometry.width, page?.height ?? geometry.metrics.leading];
  const id = (options.id ?? 'ladder').replace(/[^A-Za-z0-9-]/g, '-');
  const parts = [
    `<svg xmlns="http://www.w3.org/2000/svg" class="ladder" role="img" aria-labelledby="${id}-title ${id}-desc"` +
      ` width="${short(width)}" height="${short(height)}" viewBox="0 0 ${short(width)} ${short(height)}" font-family="${FONTS}">`,
    `<title id="${id}-title">${escapeXml(options.title ?? 'Ladder')}</title>`,
    `<desc id="${id}-desc">${escapeXml(describeLadder(geometry, options.words ?? ENGLISH))}</desc>`,
  ];
  if (options.background ?? true) {
    parts.push(`<rect class="paper" width="100%" height="100%" fill="${theme.paper}"/>`);
  }
  if (page !== undefined) parts.push(...drawPage(geometry, page, theme));
  parts.push('</svg>');
  return parts.join('\n');
}

function drawPage(geometry: LadderGeometry, page: LadderPage, theme: LadderTheme): readonly string[] {
  const out: string[] = [];
  const pen: LadderPen = {
    path: (d, style) => out.push(`<path d="${d}" ${paintOf(style, theme)}/>`),
    text: (line) => {
      if (line.joins === true) out.push(joined(out.pop() ?? '', line, theme));
      else out.push(textOf(line, theme));
    },
    bar: (cell, rung) => out.push(barOf(cell, rung.phrase)),
    openRung: (rung) => out.push(`<g class="rung" data-phrase="${rung.phrase}" data-part="${rung.part}">`),
    closeRung: () => out.push('</g>'),
  };
  paintLadder(geometry, page, pen);
  return out;
}

function paintOf(style: PathStyle, theme: LadderTheme): string {
  const fill = `fill="${style.fill === undefined ? 'none' : theme[style.fill]}"`;
  if (style.stroke === undefined) return fill;
  const cap = style.round === true ? ' stroke-linecap="round"' : '';
  const dash = style.dash === undefined ? '' : ` stroke-dasharray="${style.dash.map(short).join(' ')}"`;
  return `${fill} stroke="${theme[style.stroke]}" stroke-width="${short(style.width ?? 1)}"${cap}${dash}`;
}

function textOf(line: TextLine, theme: LadderTheme): string {
  const weight = line.bold ? ' font-weight="700"' : '';
  const anchor = line.anchor === 'start' ? '' : ` text-anchor="${line.anchor}"`;
  const place = `x="${short(line.x)}" y="${short(line.y)}" font-size="${short(line.size)}"`;
  return `<text ${place}${weight}${anchor} fill="${theme[line.role]}" xml:space="preserve">${escapeXml(line.text)}</text>`;
}

/** Continues the text element before, so that words keep their distance in whatever font is at hand. */
function joined(before: string, line: TextLine, theme: LadderTheme): string {
  const span = `<tspan font-weight="${line.bold ? 700 : 400}" fill="${theme[line.role]}">${escapeXml(line.text)}</tspan>`;
  return before.replace(/<\/text>$/, `${span}</text>`);
}

function barOf(cell: BarCell, phrase: number): string {
  const box = `x="${short(cell.x)}" y="${short(cell.y)}" width="${short(cell.width)}" height="${short(cell.height)}"`;
  const data = `data-bar="${cell.bar}" data-start="${cell.start}" data-end="${cell.end}" data-beats="${cell.beats}" data-phrase="${phrase}"`;
  return `<rect class="bar" ${box} fill="transparent" ${data}/>`;
}

/** Text for XML 1.0: markup escaped, characters that XML does not allow left out. */
export function escapeXml(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;');
}
