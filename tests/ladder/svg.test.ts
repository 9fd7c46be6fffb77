import { SaxesParser, type SaxesTagPlain } from 'saxes';
import { describe, expect, test } from 'vitest';
import {
  contrastRatio,
  DARK_THEME,
  escapeXml,
  ladderToSvg,
  layoutLadder,
  LIGHT_THEME,
  PAPER_THEME,
} from '../../src/ladder/index.js';
import { VARIANTS } from './variants.js';

/** Reads a document with a strict XML 1.0 parser, which throws at anything that is not well-formed. */
function parse(xml: string): { readonly tags: readonly SaxesTagPlain[]; readonly text: string } {
  const tags: SaxesTagPlain[] = [];
  let text = '';
  const parser = new SaxesParser();
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', (tag) => tags.push(tag));
  parser.on('text', (t) => (text += t));
  parser.write(xml).close();
  return { tags, text };
}

describe.each(Object.entries(VARIANTS))('the picture of %s', (name, make) => {
  const analysis = make();
  const svg = ladderToSvg(layoutLadder(analysis, { width: 900 }), LIGHT_THEME, {
    title: analysis.source.tags.title ?? name,
  });
  const { tags } = parse(svg);

  test('is one well-formed SVG without anything that could run or load', () => {
    expect(tags[0].name).toBe('svg');
    expect([...new Set(tags.map((t) => t.name))].filter((n) => !ALLOWED.has(n))).toEqual([]);
    for (const { attributes } of tags) {
      for (const attribute of Object.keys(attributes)) expect(attribute).not.toMatch(/^on|href/);
    }
  });

  test('has a name and a description for those who cannot see it', () => {
    const ids = tags[0].attributes['aria-labelledby'].split(' ');
    expect(tags.filter((t) => t.name === 'title' || t.name === 'desc').map((t) => t.attributes.id)).toEqual(ids);
  });

  test('has one cell a bar with its number and times', () => {
    const bars = tags.filter((t) => t.attributes.class === 'bar').map((t) => Number(t.attributes['data-bar']));
    expect(bars).toEqual(analysis.bars.map((b) => b.number));
    const starts = tags.filter((t) => t.attributes.class === 'bar').map((t) => Number(t.attributes['data-start']));
    expect(starts).toEqual(analysis.bars.map((b) => b.start));
  });
});
const ALLOWED = new Set(['svg', 'title', 'desc', 'rect', 'g', 'path', 'text', 'tspan']);

test('markup and control characters from tags are text and nothing else', () => {
  const title = VARIANTS.hostile().source.tags.title!;
  const { text } = parse(ladderToSvg(layoutLadder(VARIANTS.hostile(), { width: 500 }), LIGHT_THEME, { title }));
  expect(text).toContain('<script>alert("&")</script>');
  expect(escapeXml('a\u0000\u0008\uFFFEb')).toBe('ab');
});

test('the description reads every phrase with its bars and layers', () => {
  const { text } = parse(ladderToSvg(layoutLadder(VARIANTS.plain(), { width: 900 })));
  expect(text).toContain('Build-up, bars 41 to 58 from 1:17.8: percussion, harmony, voice; 2 bars over');
  expect(text).toContain('Drop, bars 59 to 74 from 1:52.7: kick, bass, percussion, harmony, voice.');
});

test('a small ladder looks as it was last looked at', async () => {
  const parts = [
    { function: 'intro', phrases: [4], layers: ['kick', 'bass', 'percussion', 'harmony', 'voice'] },
  ] as const;
  const { sampleAnalysis } = await import('../support/sample-analysis.js');
  const analysis = sampleAnalysis(parts, { phraseBars: 4, irregularities: [] });
  const svg = ladderToSvg(layoutLadder(analysis, { width: 300 }), PAPER_THEME, { title: 'Four bars' });
  await expect(svg).toMatchFileSnapshot('four-bars.svg');
});

// WCAG 2.2, success criterion 1.4.3: text at least 4.5 : 1; its definition gives black on white 21 : 1.
describe('contrast', () => {
  test('is measured as WCAG 2.2 defines it', () => {
    expect(contrastRatio('#000000', '#ffffff')).toBeCloseTo(21, 10);
    // The lightest grey that still reaches 4.5 : 1 on white is #767676 (from memory).
    expect(contrastRatio('#767676', '#ffffff')).toBeGreaterThanOrEqual(4.5);
    expect(contrastRatio('#777777', '#ffffff')).toBeLessThan(4.5);
  });

  test.each([
    ['paper', PAPER_THEME],
    ['a bright screen', LIGHT_THEME],
    ['a dark room', DARK_THEME],
  ])('of every ink that carries text reaches 4.5 : 1 on %s', (_, theme) => {
    for (const ink of ['ink', 'muted', 'accent'] as const) {
      expect(contrastRatio(theme[ink], theme.paper)).toBeGreaterThanOrEqual(4.5);
    }
  });
});
