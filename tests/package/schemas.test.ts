import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Ajv from 'ajv';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { matchTracks, trackMatchSchema } from '../../src/matching/index.js';
import { newCorrections } from '../../src/track/corrections/format.js';
import { correctionSchema, SCHEMA_VERSION } from '../../src/track/index.js';
import { barwise, clubWav } from '../cli/support.js';
import { SLACK_WATER, sampleAnalysis } from '../support/sample-analysis.js';
import { publishedSchemas } from './schemas.js';

const FOLDER = new URL('../../docs/schema/', import.meta.url);
const schemas = publishedSchemas();
const read = (name: string) => JSON.parse(readFileSync(new URL(name, FOLDER), 'utf8')) as Record<string, unknown>;
const text = (schema: object) => `${JSON.stringify(schema, null, 2)}\n`;

/** A validator by somebody else (Ajv), and what it has against a value. */
function troubles(schema: object, value: unknown): string {
  const ajv = new Ajv({ allErrors: true });
  return ajv.validate(schema, value) ? '' : ajv.errorsText();
}

describe('docs/schema', () => {
  it.each(Object.keys(schemas))('%s is what the types say now', (name) => {
    const file = new URL(name, FOLDER);
    if (process.env['UPDATE_SCHEMAS']) writeFileSync(file, text(schemas[name]));
    expect(existsSync(file), `${name} is missing: run with UPDATE_SCHEMAS=1`).toBe(true);
    expect(readFileSync(file, 'utf8'), 'run with UPDATE_SCHEMAS=1, or make a new version').toBe(text(schemas[name]));
  });

  it('keeps the schema of every version there was', () => {
    const kept = readdirSync(FOLDER).filter((name) => name.endsWith('.json'));
    for (const name of Object.keys(schemas)) {
      const [, kind, latest] = /^(\w+)\.v(\d+)\.json$/.exec(name)!;
      for (let v = 1; v <= Number(latest); v++) expect(kept).toContain(`${kind}.v${v}.json`);
    }
  });

  // JSON Schema draft-07, whose own schema comes with Ajv.
  it.each(readdirSync(FOLDER).filter((name) => name.endsWith('.json')))('%s is a valid schema', (name) => {
    const ajv = new Ajv();
    expect(ajv.validateSchema(read(name)), ajv.errorsText()).toBe(true);
  });

  it('describes the times, units and places of an analysis in words', () => {
    const words = JSON.stringify(schemas[`analysis.v${SCHEMA_VERSION}.json`]);
    for (const word of ['Seconds from the first sample', 'SHA-256', 'first whole bar', 'Inclusive', 'How sure'])
      expect(words).toContain(word);
  });
});

describe('data and schema', () => {
  const analysis = sampleAnalysis();

  it('agree on an analysis, and on what is none', () => {
    const schema = read(`analysis.v${SCHEMA_VERSION}.json`);
    expect(troubles(schema, analysis)).toBe('');
    expect(troubles(schema, { ...analysis, corrections: undefined })).toMatch(/corrections/);
    expect(troubles(schema, { ...analysis, mood: 'blue' })).toMatch(/additional/);
    expect(troubles(schema, { ...analysis, sections: [{ ...analysis.sections[0], function: 'chorus' }] })).toMatch(/function/); // prettier-ignore
  });

  it('agree on analyses of the first version', () => {
    const old: unknown = JSON.parse(
      readFileSync(new URL('../track/formats/analysis-v1.json', import.meta.url), 'utf8'),
    );
    expect(troubles(read('analysis.v1.json'), old)).toBe('');
    expect(troubles(read('analysis.v2.json'), old)).toMatch(/schemaVersion/);
  });

  it('agree on files of corrections of the first version', () => {
    const old: unknown = parse(readFileSync(new URL('../track/formats/corrections-v1.yaml', import.meta.url), 'utf8'));
    expect(troubles(read('corrections.v1.json'), old)).toBe('');
    const bar = { ...(old as object), corrections: [{ kind: 'bar', time: 1 }] };
    expect(troubles(read('corrections.v1.json'), bar)).not.toBe('');
  });

  it('agree on every kind of correction', () => {
    const all = [
      { kind: 'tempo', bpm: 87 },
      { kind: 'metre', beatsPerBar: 3 },
      { kind: 'first-one', time: 1 },
      { kind: 'beat', time: 1 },
      { kind: 'bar', time: 1 },
      { kind: 'phrase', time: 1, starts: false },
      { kind: 'section', time: 1, starts: true, function: null },
      { kind: 'event', time: 1, layer: 'bass', change: 'enters', happens: false },
    ].map((c) => ({ ...correctionSchema.parse(c), said: '2026-03-01T20:15:00Z', from: null }));
    expect(all).toHaveLength(correctionSchema.options.length);
    const file: unknown = parse(newCorrections('ab'.repeat(32), 'x.flac', all));
    const schema = schemas[Object.keys(schemas).find((n) => n.startsWith('corrections'))!];
    expect(troubles(schema, file)).toBe('');
    const short = { version: 2, audioDigest: 'ab'.repeat(32), corrections: [{ kind: 'section', time: 2 }] };
    expect(troubles(schema, short)).toBe('');
    for (const wrong of [
      { kind: 'tempo' },
      { kind: 'beat', time: -1 },
      { kind: 'mood' },
      { kind: 'bar', time: 1, at: 2 },
    ])
      expect(troubles(schema, { ...short, corrections: [wrong] })).not.toBe('');
  });

  it('agree on plans of two records', () => {
    const other = sampleAnalysis(SLACK_WATER.slice(1), { bpm: 126 });
    const match = matchTracks(analysis, other);
    expect(match.plans.length).toBeGreaterThan(0);
    expect(trackMatchSchema.parse(match)).toEqual(match);
  });

  it('agree on a theme', () => {
    const theme = { language: 'en', colours: { accent: '#003366' }, hatches: { kick: 'frame' }, words: { functions: { main: 'groove' } } }; // prettier-ignore
    expect(troubles(schemas['theme.v1.json'], theme)).toBe('');
    expect(troubles(schemas['theme.v1.json'], { colours: { accent: 'blue' } })).not.toBe('');
    expect(troubles(schemas['theme.v1.json'], { words: { functions: { chorus: 'x' } } })).not.toBe('');
  });
});

describe('what barwise match --json prints', () => {
  let root: string;
  beforeAll(() => {
    root = mkdtempSync(join(tmpdir(), 'barwise-schema-'));
    writeFileSync(join(root, 'a.wav'), clubWav());
    writeFileSync(join(root, 'b.wav'), clubWav(124));
  });
  afterAll(() => rmSync(root, { recursive: true, force: true }));

  it('is as its schema says', async () => {
    const { code, out } = await barwise(['match', join(root, 'a.wav'), join(root, 'b.wav'), '--json', '--no-cache']);
    expect(code).toBe(0);
    const printed = JSON.parse(out) as { plans: unknown[] };
    expect(printed.plans.length).toBeGreaterThan(0);
    expect(troubles(read('match.v1.json'), printed)).toBe('');
    expect(troubles(read('match.v1.json'), { ...printed, plans: [{ kind: 'leap' }] })).not.toBe('');
  });
});
