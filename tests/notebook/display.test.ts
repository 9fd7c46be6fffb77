import { describe, expect, it } from 'vitest';
import { layersChart } from '../../src/charts/index.js';
import {
  beatTable,
  bundleOf,
  chart,
  countTable,
  demoTrack,
  ladder,
  show,
  trackSummary,
  VEGA_LITE_MIME,
} from '../../src/notebook/index.js';
import { groupsOf } from '../../src/notebook/counttable.js';
import { sampleAnalysis } from '../support/sample-analysis.js';

const HOSTILE = '<b onclick="x()">&"\'</b>';

describe('what is shown under a cell', () => {
  it('a chart is sent as vega-lite, as a picture and as words', async () => {
    const spec = layersChart(sampleAnalysis());
    const { bundle } = await chart(spec);
    expect(Object.keys(bundle)).toEqual([VEGA_LITE_MIME, 'image/svg+xml', 'text/plain']);
    expect(bundle[VEGA_LITE_MIME]).toBe(spec);
    expect(bundle['image/svg+xml']).toMatch(/^<svg /);
  });

  it('results show themselves: charts, analyses, displays; other values do not pretend', async () => {
    const analysis = sampleAnalysis();
    expect(await bundleOf(layersChart(analysis))).toHaveProperty('image/svg+xml');
    expect(await bundleOf(analysis)).toEqual(trackSummary(analysis).bundle);
    expect(await bundleOf(countTable(analysis))).toHaveProperty('text/html');
    for (const other of [undefined, null, 3, 'x', {}, [], { bundle: 1 }, new Date()])
      expect(await bundleOf(other)).toBeUndefined();
  });

  it('the summary says what the analysis says, with its doubt', () => {
    const { bundle } = trackSummary(sampleAnalysis());
    const text = String(bundle['text/plain']);
    expect(text).toContain('Slack Water');
    expect(text).toContain('124 BPM');
    expect(text).toContain('A minor, fairly sure');
    expect(text).toContain('16 bars, 64 beats');
    expect(text).toContain('2 bars longer');
  });

  it('tags cannot become markup', () => {
    const analysis = sampleAnalysis(undefined, { title: HOSTILE, artist: HOSTILE });
    for (const { bundle } of [trackSummary(analysis), countTable(analysis), ladder(analysis)])
      for (const type of ['text/html', 'image/svg+xml'])
        expect(JSON.stringify(bundle[type] ?? '')).not.toContain('<b onclick');
  });

  it('the count table names each phrase, its bars, its time and what happens on its one', () => {
    const { bundle } = countTable(sampleAnalysis());
    const lines = String(bundle['text/plain']).split('\n');
    expect(lines[0]).toBe('7 phrases; the usual one has 16 bars.');
    expect(lines).toHaveLength(2 + 7);
    expect(lines[2]).toMatch(/^\s+1\s+1–16\s+0:00\.4\s+16 bars, 64 beats\s+4 × 4\s+intro: drums in$/);
    expect(lines[5]).toMatch(/41–58\s.*18 bars, 72 beats\s+4 × 4 \+ 2/);
    expect(lines[6]).toContain('the drop lands');
    expect(String(bundle['text/html'])).toContain('<strong>41–58</strong>');
  });

  it('lengths are counted in groups of four', () => {
    // Common practice, no source: people count in fours and say what is left over.
    expect([1, 4, 6, 8, 16, 18].map(groupsOf)).toEqual(['1', '1 × 4', '1 × 4 + 2', '2 × 4', '4 × 4', '4 × 4 + 2']);
  });

  it('the beat table counts aloud, from any bar', () => {
    const analysis = sampleAnalysis(undefined, { bpm: 120, firstOne: 0 });
    const lines = String(beatTable(analysis, 5, 2).bundle['text/plain']).split('\n');
    expect(lines[2]).toMatch(/^\s*5\s+1 · 1 {2}\(0:08\.00\)\s+1 · 2 {2}\(0:08\.50\)/);
    expect(lines[3]).toMatch(/^\s*6\s+2 · 1 {2}\(0:10\.00\)/);
    expect(lines).toHaveLength(4);
  });

  it('a pick-up ends on the last beat of its bar, and the first phrase one is the one after it', () => {
    const whole = sampleAnalysis(undefined, { bpm: 120, firstOne: 0 });
    const [first, ...others] = whole.bars;
    const bars = [{ ...first, beats: 3 }, ...others].map((bar) => ({ ...bar, number: bar.number - 1 }));
    const phrases = whole.phrases.map((p) => ({ ...p, startBar: p.startBar - 1, endBar: p.endBar - 1 }));
    const analysis = { ...whole, beats: whole.beats.slice(1), bars, phrases };
    const lines = String(beatTable(analysis, 0, 2).bundle['text/plain']).split('\n');
    expect(lines[2]).toMatch(/^\s*0\s{20,}1 · 2 {2}\(0:00\.50\) {2}1 · 3 {2}\(0:01\.00\) {2}1 · 4 {2}\(0:01\.50\)$/);
    expect(lines[3]).toMatch(/^\s*1\s+2 · 1 {2}\(0:02\.00\)/);
    expect(String(trackSummary(analysis).bundle['text/plain'])).toContain(
      'First phrase one: 0:02.00 (bar 1, after a pick-up)',
    );
    const [, , row] = String(countTable(analysis).bundle['text/plain']).split('\n');
    expect(row).toMatch(/^\s*1\s+1–\d+\s+0:02\.0/);
  });

  it('showing outside a notebook, or what has no picture, is told in one sentence', async () => {
    await expect(show(countTable(sampleAnalysis()))).rejects.toMatchObject({ code: 'bad-option' });
    await expect(show(3)).rejects.toMatchObject({ code: 'bad-option' });
  });

  it('a demo track that is not there is told with what to do', () => {
    expect(() => demoTrack('no-such-track')).toThrow(/npm run demo/);
  });
});
