import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { estimateOfBeats, readTruth, scoreTrack } from '../../src/evaluation/index.js';
import { fillBetween } from '../corpus/docs.js';
import type { Outcome } from '../corpus/job.js';
import { byGroup, confidenceTable, groupTable, songTable } from '../corpus/tables.js';

describe('documents with measured tables', () => {
  let folder: string;
  beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'barwise-docs-'))));
  afterEach(() => rmSync(folder, { recursive: true }));

  it('are filled between their markers and nowhere else', () => {
    const file = join(folder, 'a.md');
    writeFileSync(file, 'before\n<!-- x:begin -->\nold\n<!-- x:end -->\nafter\n<!-- y:begin --><!-- y:end -->\n');
    fillBetween(file, 'x', 'new');
    fillBetween(file, 'x', 'newer');
    const text = readFileSync(file, 'utf8');
    expect(text).toBe('before\n<!-- x:begin -->\n\nnewer\n\n<!-- x:end -->\nafter\n<!-- y:begin --><!-- y:end -->\n');
  });

  it('get their markers when they have none', () => {
    const file = join(folder, 'b.md');
    fillBetween(file, 'x', 'text');
    expect(readFileSync(file, 'utf8')).toContain('<!-- x:begin -->\n\ntext\n\n<!-- x:end -->');
  });
});

describe('tables', () => {
  const beats = Array.from({ length: 60 }, (_, i) => i * 0.5);
  const outcome = (id: string, group: string, late: number): Outcome => {
    const truth = readTruth({ id, group, bpm: 120, duration_s: 30, beats, downbeats: [] });
    return {
      id,
      group,
      maker: truth.maker,
      cut: 0,
      scores: { barwise: scoreTrack(truth, estimateOfBeats(beats.map((t) => t + late))) },
      judgements: [{ of: 'tempo', confidence: 0.9, right: late === 0 }],
      irregularities: null,
      layers: null,
      note: '',
      seconds: 1,
      duration: 30,
    };
  };
  const outcomes = [outcome('one', 'dance', 0), outcome('two', 'dance', 0.25), outcome('three', 'other', 0)];

  it('have a row a song, leaving out what no song was judged by', () => {
    const rows = songTable(outcomes).split('\n');
    expect(rows).toHaveLength(2 + 3);
    expect(rows[0]).not.toContain('downbeat');
  });

  it('take means over all songs and over each group', () => {
    const rows = groupTable(byGroup(outcomes), false).split('\n').map((r) => r.split('|').map((c) => c.trim())); // prettier-ignore
    const beatF = rows[0].indexOf('beat F');
    expect(rows.slice(2).map((r) => [r[1], r[2], r[beatF]])).toEqual([
      ['all', '3', '0.67'],
      ['dance', '2', '0.50'],
      ['other', '1', '1.00'],
    ]);
  });

  it('tell how often an answer given with a confidence was right', () => {
    expect(confidenceTable(outcomes.flatMap((o) => o.judgements))).toMatch(
      /tempo +\| 0\.85–0\.95 +\| 3 +\| 0\.90 +\| 0\.67/,
    );
  });
});
