import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { create, type Font } from 'fontkit';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { textMeasure, toSvg } from '../../src/charts/index.js';
import { loadPeer } from '../../src/charts/peers.js';
import { everyChart, shortTrack } from './charts.js';

const { analysis, curves, frontEnd } = shortTrack();
const charts = everyChart(curves, analysis, frontEnd);
const names = Object.keys(charts);

describe('drawing to SVG', () => {
  it.each(names)('%s shows every label whole and inside the picture', async (name) => {
    const svg = await toSvg(charts[name]);
    const measure = await textMeasure();
    const [, width, height] = /<svg[^>]* width="([\d.]+)" height="([\d.]+)"/.exec(svg)!.map(Number);
    const texts = placedTexts(svg);
    expect(texts.length).toBeGreaterThan(3);
    expect(svg).not.toContain('…');
    for (const { text, x, y, size, anchor, bold } of texts) {
      const length = measure(text, size, bold);
      const left = anchor === 'middle' ? x - length / 2 : anchor === 'end' ? x - length : x;
      expect(left, text).toBeGreaterThanOrEqual(0);
      expect(left + length, text).toBeLessThanOrEqual(width);
      expect(y - size, text).toBeGreaterThanOrEqual(-1);
      expect(y, text).toBeLessThanOrEqual(height);
    }
  });

  it.each(names)('%s has no two axis labels on top of each other', async (name) => {
    const measure = await textMeasure();
    const texts = placedTexts(await toSvg(charts[name])).filter(
      ({ anchor, text }) => anchor === 'middle' && /^[\d:.]+$/.test(text),
    );
    for (const a of texts)
      for (const b of texts) {
        if (a === b || a.y !== b.y) continue;
        const room = (measure(a.text, a.size) + measure(b.text, b.size)) / 2;
        expect(Math.abs(a.x - b.x), `${a.text} and ${b.text}`).toBeGreaterThan(room + 2);
      }
  });

  it('widths are those of the typeface, not guesses', async () => {
    const measure = await textMeasure();
    // fontkit's own layout engine on the same file; it also kerns, which moves a line by a few hundredths.
    const text = 'Self-similarity of 124 bars';
    expect(Math.abs(measure(text, 10) / laidOut(text, 10) - 1)).toBeLessThan(0.03);
    expect(measure('ii', 10)).toBeLessThan(measure('WW', 10) / 2);
    expect(measure('Ľ', 10)).toBeGreaterThan(3);
    expect(measure('音', 10)).toBe(10);
    expect(measure('bar', 10, true)).toBeGreaterThan(measure('bar', 10));
  });

  it('the same chart gives the same bytes, and two charts on a page share no identifier', async () => {
    const [one, again, other] = [
      await toSvg(charts['layers']),
      await toSvg(charts['layers']),
      await toSvg(charts['novelty']),
    ];
    expect(again).toBe(one);
    const ids = (svg: string) => [...svg.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(ids(one).length).toBeGreaterThan(0);
    expect(ids(one).filter((id) => ids(other).includes(id))).toEqual([]);
    for (const [, id] of one.matchAll(/url\(#([^)]+)\)/g)) expect(ids(one)).toContain(id);
  });

  it('matrices are one small picture each, never a rectangle a value', async () => {
    const svg = await toSvg(charts['similarity']);
    const [, data] = /href="data:image\/png;base64,([^"]+)"/.exec(svg)!;
    const picture = PNG.sync.read(Buffer.from(data, 'base64'));
    expect(picture.width).toBe(analysis.bars.length * 2);
    expect(picture.height).toBe(picture.width);
    expect(svg.match(/<image/g)).toHaveLength(1);
    expect(svg.length).toBeLessThan(60_000);
  });

  it('text from a file cannot become markup', async () => {
    const svg = await toSvg({ ...charts['layers'], title: { text: '<script>alert(1)</script> & "x"' } });
    expect(svg).not.toContain('<script');
    expect(svg).toContain('&lt;script&gt;');
  });

  it('says which package is missing and how to get it', async () => {
    const missing = loadPeer('vega', 'Drawing a chart', () => Promise.reject(new Error('not found')));
    await expect(missing).rejects.toMatchObject({
      name: 'BarwiseError',
      code: 'missing-package',
      message: 'Drawing a chart needs the package vega: run `npm install vega`.',
    });
  });
});

function laidOut(text: string, size: number): number {
  const name = '@fontsource/atkinson-hyperlegible/files/atkinson-hyperlegible-latin-400-normal.woff';
  const font = create(readFileSync(createRequire(import.meta.url).resolve(name))) as Font;
  return (font.layout(text).advanceWidth / font.unitsPerEm) * size;
}

interface PlacedText {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly anchor: string;
  readonly bold: boolean;
}

/** The texts of an SVG with their places on the page: the translations of the groups around them are added up. */
function placedTexts(svg: string): PlacedText[] {
  const stack: [number, number][] = [[0, 0]];
  const texts: PlacedText[] = [];
  for (const [, close, name, attributes, empty, content] of svg.matchAll(/<(\/?)(\w+)([^>]*?)(\/?)>([^<]*)/g)) {
    if (name !== 'g' && name !== 'text') continue;
    if (close) {
      stack.pop();
      continue;
    }
    const [x0, y0] = stack[stack.length - 1];
    const move = /translate\((-?[\d.]+),(-?[\d.]+)\)/.exec(attributes);
    const at: [number, number] = [x0 + Number(move?.[1] ?? 0), y0 + Number(move?.[2] ?? 0)];
    if (!empty) stack.push(at);
    if (name !== 'text' || attributes.includes('rotate')) continue;
    texts.push({
      text: content.replaceAll('&amp;', '&'),
      x: at[0],
      y: at[1],
      size: Number(/font-size="([\d.]+)px"/.exec(attributes)?.[1]),
      anchor: /text-anchor="(\w+)"/.exec(attributes)?.[1] ?? 'start',
      bold: attributes.includes('font-weight="bold"'),
    });
  }
  return texts;
}
