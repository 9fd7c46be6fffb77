import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { compile } from 'vega-lite';
import { describe, expect, it } from 'vitest';
import { beatPhaseChart, isChartSpec, layersChart, waveformChart } from '../../src/charts/index.js';
import { collectingLogger } from '../../src/charts/svg.js';
import { sampleAnalysis } from '../support/sample-analysis.js';
import { everyChart, shortTrack } from './charts.js';

const { analysis, curves, frontEnd } = shortTrack();
const charts = everyChart(curves, analysis, frontEnd);
const names = Object.keys(charts);

describe('chart specifications', () => {
  it.each(names)('%s compiles without a warning', (name) => {
    const messages: string[] = [];
    compile(charts[name] as never, { logger: collectingLogger(messages) });
    expect(messages).toEqual([]);
  });

  it('a warning would be noticed', () => {
    const messages: string[] = [];
    const broken = {
      ...{ data: { values: [{ a: 1 }] }, mark: 'rule' },
      encoding: { strokeWidth: { field: 'a', type: 'nominal' } },
    };
    compile(broken as never, { logger: collectingLogger(messages) });
    expect(messages.length).toBeGreaterThan(0);
  });

  it.each(names)('%s is plain JSON that survives being stored', (name) => {
    expect(JSON.parse(JSON.stringify(charts[name]))).toEqual(charts[name]);
    expect(isChartSpec(charts[name])).toBe(true);
  });

  it.each(names)('%s uses only words of the published grammar', (name) => {
    // Source: vega-lite's own JSON schema (BSD-3-Clause), shipped with the package.
    const known = schemaWords();
    const unknown = keysOf(withoutData(charts[name])).filter((key) => !known.has(key));
    expect(unknown).toEqual([]);
  });

  it('drawing is pure: the same input gives the same chart and nothing is changed', () => {
    const before = JSON.stringify([analysis, Array.from(curves.levels.values), Array.from(curves.similarity.values)]);
    const again = everyChart(curves, analysis, frontEnd);
    expect(again).toEqual(charts);
    const after = JSON.stringify([analysis, Array.from(curves.levels.values), Array.from(curves.similarity.values)]);
    expect(after).toBe(before);
  });

  it('all charts over time share one axis: bars above, seconds below, the same room at the left', () => {
    for (const name of ['waveform', 'onsets', 'novelty', 'tempogram', 'layers']) {
      const text = JSON.stringify(charts[name]);
      expect(text).toContain(`"domain":[0,${analysis.source.durationSeconds}]`);
      expect(text).toContain('"orient":"top","title":"bar"');
      expect(text).toContain('"orient":"bottom","title":"time (min:s)"');
      expect(text).toContain('"axisLeft":{"minExtent":92}');
    }
  });

  it('a track without bars, phrases or sections still has its pictures', () => {
    const bare = sampleAnalysis([], { overrides: { beats: [], bars: [], phrases: [], sections: [], events: [] } });
    const messages: string[] = [];
    for (const chart of [layersChart(bare), waveformChart(curves, bare), beatPhaseChart(curves)])
      compile(chart as never, { logger: collectingLogger(messages) });
    expect(messages).toEqual([]);
  });
});

function schemaWords(): Set<string> {
  const file = createRequire(import.meta.url).resolve('vega-lite/vega-lite-schema.json');
  const words = new Set<string>();
  const walk = (node: unknown): void => {
    if (Array.isArray(node)) node.forEach(walk);
    else if (node !== null && typeof node === 'object') {
      for (const [key, value] of Object.entries(node)) {
        if (key === 'properties') for (const word of Object.keys(value as object)) words.add(word);
        walk(value);
      }
    }
  };
  walk(JSON.parse(readFileSync(file, 'utf8')));
  return words;
}

/** The names of fields in inline data are ours. */
function withoutData(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutData);
  if (value === null || typeof value !== 'object') return value;
  const kept = Object.entries(value).filter(([key]) => key !== 'data');
  return Object.fromEntries(kept.map(([key, inner]) => [key, withoutData(inner)]));
}

function keysOf(value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap(keysOf);
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) => [key, ...keysOf(inner)]);
}
