import { existsSync, readFileSync } from 'node:fs';
import type { Document } from 'yaml';
import { describe, expect, it } from 'vitest';
import { CORRECTIONS_FORMAT, CORRECTIONS_VERSION, editCorrections } from '../../../src/track/corrections/format.js';
import { parseCorrections, parseTrackAnalysis, SCHEMA_VERSION, trackAnalysisSchema } from '../../../src/track/index.js';
import { ANALYSIS_FORMAT } from '../../../src/track/schema.js';
import { bringUp, type VersionedFormat } from '../../../src/track/versions.js';
import { BarwiseError } from '../../../src/units/index.js';
import { sampleAnalysis } from '../../support/sample-analysis.js';

const file = (name: string) => new URL(name, import.meta.url);
const text = (name: string) => readFileSync(file(name), 'utf8');
const versions = (latest: number) => Array.from({ length: latest - 1 }, (_, i) => i + 1);
const failure = (work: () => unknown): BarwiseError => {
  try {
    work();
  } catch (error) {
    if (error instanceof BarwiseError) return error;
    throw error;
  }
  throw new Error('was taken');
};

describe('a format that is kept in files', () => {
  const letters: VersionedFormat<string> = { name: 'a letter', version: 4, steps: { 1: (t) => `${t}b`, 2: (t) => `${t}c`, 3: (t) => `${t}d` } }; // prettier-ignore

  it('comes up from every earlier version, a step a version', () => {
    expect([1, 2, 3, 4].map((v) => bringUp('a', v, letters))).toEqual(['abcd', 'acd', 'ad', 'a']);
  });

  it('is refused in one sentence where it is newer, or of no version at all', () => {
    expect(failure(() => bringUp('a', 5, letters, 'x.txt'))).toMatchObject({
      code: 'unsupported-format',
      file: 'x.txt',
    });
    expect(failure(() => bringUp('a', 5, letters, 'x.txt')).message).toMatch(/^x\.txt is a letter of version 5, .* up to 4: update Barwise, .*\.$/); // prettier-ignore
    for (const version of [0, -1, 1.5, '2', null, undefined, NaN])
      expect([version, failure(() => bringUp('a', version, letters)).code]).toEqual([version, 'damaged']);
  });
});

describe('an analysis of an earlier version', () => {
  // Each file here was written by the program of that time.
  it.each(versions(SCHEMA_VERSION))('%i is read, and loses nothing', (version) => {
    expect(ANALYSIS_FORMAT.steps[version]).toBeTypeOf('function');
    const old = JSON.parse(text(`analysis-v${version}.json`)) as Record<string, unknown>;
    expect(old['schemaVersion']).toBe(version);
    expect(trackAnalysisSchema.safeParse(old).success).toBe(false);
    const now = parseTrackAnalysis(old);
    expect(now).toEqual({ ...old, schemaVersion: SCHEMA_VERSION, corrections: [] });
    expect(parseTrackAnalysis(now)).toEqual(now);
  });

  it('1 keeps what had been said, where something had', () => {
    const told = { ...sampleAnalysis(), schemaVersion: 1, corrections: [{ kind: 'tempo', bpm: 87 }] };
    expect(parseTrackAnalysis(told).corrections).toEqual([{ kind: 'tempo', bpm: 87 }]);
  });

  it('is refused where it is newer, and where it is damaged', () => {
    const newer = { ...sampleAnalysis(), schemaVersion: SCHEMA_VERSION + 1, mood: 'blue' };
    expect(failure(() => parseTrackAnalysis(newer))).toMatchObject({ code: 'unsupported-format' });
    expect(failure(() => parseTrackAnalysis({ ...sampleAnalysis(), tempo: 3 })).message).toMatch(/"tempo"/);
    expect(failure(() => parseTrackAnalysis(null)).code).toBe('damaged');
  });
});

describe('a file of corrections of an earlier version', () => {
  it.each(versions(CORRECTIONS_VERSION))(
    '%i is read, and kept with its comments when something is added',
    (version) => {
      expect(CORRECTIONS_FORMAT.steps[version]).toBeTypeOf('function');
      expect(existsSync(file(`corrections-v${version}.yaml`))).toBe(true);
      const old = text(`corrections-v${version}.yaml`);
      expect(old).toMatch(new RegExp(`^version: ${version}$`, 'm'));
      const before = parseCorrections(old, 'old.yaml').corrections;
      expect(before.length).toBeGreaterThan(6);
      const longer = editCorrections(old, 'old.yaml', { add: [{ kind: 'bar', time: 9, said: null, from: null }] });
      expect(longer).toMatch(new RegExp(`^version: ${CORRECTIONS_VERSION}$`, 'm'));
      expect(longer).toContain('# the band plays it slower');
      expect(parseCorrections(longer, 'old.yaml').corrections).toEqual([...before, { kind: 'bar', time: 9, said: null, from: null }]); // prettier-ignore
    },
  );

  it('is refused where it is newer, with the name of the file', () => {
    const newer = text('corrections-v1.yaml').replace('version: 1', 'version: 99');
    const error = failure(() => parseCorrections(newer, 'mine.yaml'));
    expect(error).toMatchObject({ code: 'unsupported-format', file: 'mine.yaml' });
    expect(error.message).toContain('version 99');
  });

  it('has a step for documents, not for their data, so that comments stay', () => {
    const steps = Object.values(CORRECTIONS_FORMAT.steps);
    const set: [string, unknown][] = [];
    const document = { set: (name: string, value: unknown) => set.push([name, value]) } as unknown as Document;
    steps.forEach((step) => expect(step(document)).toBe(document));
    expect(set).toEqual(steps.map((_, i) => ['version', i + 2]));
  });
});
