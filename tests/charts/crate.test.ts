import { describe, expect, it } from 'vitest';
import { crateKeyChart, crateLoudnessChart, cratePhraseChart, crateTempoChart, toSvg } from '../../src/charts/index.js';
import { outlineOf, type TrackOutline } from '../../src/crate/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';

const CHARTS = { crateKeyChart, crateLoudnessChart, cratePhraseChart, crateTempoChart };

function crate(count: number): TrackOutline[] {
  const outline = outlineOf(sampleAnalysis());
  return Array.from({ length: count }, (_, i) => ({
    ...outline,
    source: { ...outline.source, tags: { ...outline.source.tags, title: `Track ${i} <script>"'` } },
    tempo: { ...outline.tempo, bpm: 90 + ((i * 17) % 85) },
    key: i % 5 === 0 ? { tonic: null, mode: null, confidence: null } : outline.key,
    loudness: { ...outline.loudness, integratedLufs: i % 7 === 3 ? null : -14 + (i % 9) },
  }));
}

describe.each(Object.entries(CHARTS))('%s', (name, chart) => {
  it.each([0, 1, 9, 61, 300])('draws %i tracks without a complaint', async (count) => {
    const warnings: string[] = [];
    const svg = await toSvg(chart(crate(count)), { warnings });
    expect(warnings).toEqual([]);
    expect(svg).toMatch(/^<svg/);
    expect(svg).not.toContain('<script');
    expect(svg.length).toBeLessThan(400_000);
  });

  it('names the tracks where they can be named', async () => {
    const svg = await toSvg(chart(crate(9)));
    if (name !== 'crateKeyChart') expect(svg).toContain('Track 8 &lt;script');
  });
});

it('puts the twelve pairs of relative keys in the order of fifths', async () => {
  const svg = await toSvg(crateKeyChart(crate(3)));
  const rows = [...svg.matchAll(/>([A-G][#b]? major) \/ ([A-G][#b]? minor)</g)].map(
    ([, major, minor]) => `${major}, ${minor}`,
  );
  // Common knowledge of music theory, no source needed.
  expect(rows.slice(0, 4)).toEqual(['C major, A minor', 'G major, E minor', 'D major, B minor', 'A major, F# minor']);
  expect(rows).toHaveLength(12);
});

it('shortens a name that is too long for its row, between letters', async () => {
  const [track] = crate(1);
  const title = 'A very long name 👩‍👩‍👧‍👧👩‍👩‍👧‍👧👩‍👩‍👧‍👧👩‍👩‍👧‍👧👩‍👩‍👧‍👧👩‍👩‍👧‍👧👩‍👩‍👧‍👧👩‍👩‍👧‍👧👩‍👩‍👧‍👧 that goes on';
  const svg = await toSvg(
    crateTempoChart([{ ...track, source: { ...track.source, tags: { ...track.source.tags, title } } }]),
  );
  expect(svg).toMatch(/A very long name (👩‍👩‍👧‍👧)+…/u);
});
