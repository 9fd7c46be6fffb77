import { describe, expect, it } from 'vitest';
import {
  readJams,
  jamsBeats,
  jamsKey,
  jamsSegments,
  jamsTempo,
  TABLES,
  toCsv,
  toJams,
  toJsonLines,
  toRows,
} from '../../src/exchange/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';
import { jamsSchema, jamsSchemaFound, jamsSkipNote, valueSchema } from '../reference/jams.js';

const analysis = sampleAnalysis();

describe('tables', () => {
  it('hold one row a thing, each with the track it is of', () => {
    const counts = Object.fromEntries(TABLES.map((t) => [t, toRows(analysis, t).length]));
    expect(counts).toEqual({
      beats: analysis.bars.reduce((sum, bar) => sum + bar.beats, 0),
      bars: analysis.bars.length,
      phrases: analysis.phrases.length,
      sections: analysis.sections.length,
      events: analysis.events.length,
      irregularities: analysis.irregularities.length,
    });
    for (const table of TABLES)
      for (const row of toRows(analysis, table)) expect(row['track']).toBe(analysis.source.audioDigest);
  });

  it('are read back from JSON Lines as they were', () => {
    for (const table of TABLES) {
      const rows = toRows(analysis, table);
      const lines = toJsonLines(rows).split('\n').slice(0, -1);
      expect(lines.map((l) => JSON.parse(l) as unknown)).toEqual(rows);
    }
  });

  it('are CSV that a spreadsheet shows and does not run', () => {
    const rows = [{ a: '=1+1', b: -2.5, c: 'x, "y"\u001b[31m', d: null, e: true }, { a: ' +cmd', b: 3, c: '', d: null, e: false }]; // prettier-ignore
    expect(toCsv(rows)).toBe('a,b,c,d,e\r\n\'=1+1,-2.5,"x, ""y"" [31m",,true\r\n\' +cmd,3,,,false\r\n');
    expect(toCsv([])).toBe('');
  });
});

describe('JAMS', () => {
  const jams = JSON.parse(JSON.stringify(toJams(analysis))) as {
    annotations: { namespace: string; data: { value: unknown }[] }[];
  };

  it('gives back beats, bars, sections, tempo and key to 0.1 ms', () => {
    const read = readJams(jams);
    const counted = toRows(analysis, 'beats').map((row) => row['time']);
    expect(jamsBeats(read)).toEqual({
      beats: counted,
      downbeats: analysis.bars.map((bar) => bar.start),
      beatsPerBar: 4,
    });
    const segments = jamsSegments(read)!;
    expect(segments.map((s) => s.label)).toEqual(analysis.sections.map((s) => s.function));
    segments.forEach((s, i) => {
      expect(Math.abs(s.start - analysis.sections[i].start)).toBeLessThan(1e-4);
      expect(Math.abs(s.end - analysis.sections[i].end)).toBeLessThan(1e-4);
    });
    expect(jamsTempo(read)).toBe(analysis.tempo.alternatives[0]?.bpm ?? analysis.tempo.bpm);
    expect(jamsKey(read)).toEqual({ tonic: analysis.key.tonic, mode: analysis.key.mode });
  });

  it.skipIf(!jamsSchemaFound)(`is valid by the published schema and namespaces${jamsSkipNote}`, () => {
    const valid = jamsSchema();
    expect(valid(jams), JSON.stringify(valid.errors)).toBe(true);
    const files: Record<string, string> = { beat_position: 'beat_position', tempo: 'tempo_tempo', segment_open: 'segment_open', key_mode: 'key_key_mode' }; // prettier-ignore
    for (const { namespace, data } of jams.annotations) {
      const value = valueSchema(files[namespace], namespace);
      for (const observation of data)
        expect(value(observation.value), `${namespace}: ${JSON.stringify(value.errors)}`).toBe(true);
    }
  });
});
