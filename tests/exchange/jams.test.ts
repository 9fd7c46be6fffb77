import { describe, expect, it } from 'vitest';
import { jamsBeats, jamsKey, jamsSegments, jamsTempo, readJams } from '../../src/exchange/index.js';
import { BarwiseError } from '../../src/units/index.js';
import { jamsSchema, jamsSchemaFound, jamsSkipNote, valueSchema } from '../reference/jams.js';

const row = (time: number, value: unknown, duration = 0, confidence: unknown = null) => ({ time, duration, value, confidence }); // prettier-ignore
const annotation = (namespace: string, data: unknown) => ({ annotation_metadata: {}, namespace, data, sandbox: {} });
const file = (...annotations: unknown[]) => ({ file_metadata: { duration: 60, jams_version: '0.3.4' }, annotations, sandbox: {} }); // prettier-ignore
const position = (position: number, measure = 1, num_beats = 4) => ({ position, measure, num_beats, beat_units: 4 });

const good = file(
  annotation('beat_position', [row(0.5, position(1)), row(1, position(2)), row(1.5, position(3)), row(2, position(4))]),
  annotation('tempo', [row(0, 120, 60, 0.7), row(0, 60, 60, 0.3)]),
  annotation('segment_open', [row(0, 'intro', 8), row(8, 'main', 52)]),
  annotation('key_mode', [row(0, 'C:major', 4), row(4, 'Bb:minor', 56)]),
  annotation('chord', [row(0, 'N', 60)]),
);

describe('annotations in JAMS', () => {
  it('give beats with their place in the bar, tempo, sections and key', () => {
    const jams = readJams(good);
    expect(jamsBeats(jams)).toEqual({ beats: [0.5, 1, 1.5, 2], downbeats: [0.5], beatsPerBar: 4 });
    expect(jamsTempo(jams)).toBe(120);
    expect(jamsSegments(jams)?.map((s) => [s.start, s.end, s.label])).toEqual([[0, 8, 'intro'], [8, 60, 'main']]); // prettier-ignore
    expect(jamsKey(jams)).toEqual({ tonic: 'A#', mode: 'minor' });
    expect(jams.duration).toBe(60);
  });

  it('may hold beats without bars, or bars as the numbers of beats', () => {
    const beats = (values: unknown[]) => jamsBeats(readJams(file(annotation('beat', values.map((v, i) => row(i / 2, v)))))); // prettier-ignore
    expect(beats([null, null, null])).toEqual({ beats: [0, 0.5, 1], downbeats: [], beatsPerBar: null });
    expect(beats([3, 1, 2, 3, 1])).toMatchObject({ downbeats: [0.5, 2], beatsPerBar: 3 });
  });

  it('may be dense, and in any order', () => {
    const dense = { time: [2, 1], duration: [0, 0], value: [null, null], confidence: [null, null] };
    expect(jamsBeats(readJams(file(annotation('beat', dense))))?.beats).toEqual([1, 2]);
    expect(() => readJams(file(annotation('beat', { ...dense, value: [null] })))).toThrow(/value of beat/);
  });

  it('say nothing of what they lack, and nothing of modes other than major and minor', () => {
    const empty = readJams(file());
    expect([jamsBeats(empty), jamsTempo(empty), jamsSegments(empty), jamsKey(empty)]).toEqual([null, null, null, null]);
    const key = (value: string) => jamsKey(readJams(file(annotation('key_mode', [row(0, value, 1)]))));
    expect(['N', 'D:dorian', 'E'].map(key)).toEqual([null, null, null]);
    expect(key('Cb:ionian')).toEqual({ tonic: 'B', mode: 'major' });
  });

  it('are refused in one sentence that names file and field', () => {
    const broken = { ...good, annotations: [{ annotation_metadata: {}, data: [] }] };
    const error = (json: unknown) => {
      try {
        readJams(json, 'truth/one.jams');
      } catch (e) {
        return e as BarwiseError;
      }
      throw new Error('was read');
    };
    expect(error(broken)).toBeInstanceOf(BarwiseError);
    expect(error(broken)).toMatchObject({ code: 'damaged', file: 'truth/one.jams' });
    expect(error(broken).message).toMatch(/^truth\/one\.jams .*annotations\.0\.namespace.*\.$/);
    expect(() => jamsBeats(readJams(file(annotation('beat', [row(0, 'one')]))))).toThrow(/value 1 of beat/);
  });
});

describe.skipIf(!jamsSchemaFound)(`the published JAMS schema${jamsSkipNote}`, () => {
  it('accepts what is read here, and refuses every change that is refused here', () => {
    const valid = jamsSchema();
    expect(valid(good)).toBe(true);
    let refused = 0;
    for (const damage of damages(good)) {
      const ours = isRead(damage.json);
      // What the schema refuses must not be read; parts that are not read here may be as they like.
      if (valid(damage.json) === false && !/sandbox|jams_version/.test(damage.at)) {
        refused++;
        expect([damage.at, ours]).toEqual([damage.at, false]);
      }
      // Without annotations a file is valid, and of no use.
      if (!ours && damage.at !== 'annotations gone')
        expect([damage.at, valid(damage.json)]).toEqual([damage.at, false]);
    }
    expect(refused).toBeGreaterThan(10);
  });

  it.each([
    ['beat_beat', 'beat', [1, null, 'x', {}, true]],
    [
      'beat_position',
      'beat_position',
      [
        position(1),
        position(0),
        { position: 1 },
        { ...position(1), beat_units: 3 },
        { ...position(1), num_beats: 1.5 },
        null,
      ],
    ],
    ['tempo_tempo', 'tempo', [120, 0, -1, '120', null]],
    ['segment_open', 'segment_open', ['A', '', 3, null]],
    ['key_key_mode', 'key_mode', ['C:major', 'N', 'F#:minor', 'H:major', 'C:sad', 'C', 3]],
  ] as const)('and the values of %s are taken as its namespace says', (name, namespace, values) => {
    const valid = valueSchema(name, namespace);
    const read = (value: unknown) => {
      const jams = readJams(file(annotation(namespace, [row(1, value)])));
      try {
        [jamsBeats, jamsTempo, jamsSegments, jamsKey].forEach((f) => f(jams));
        return true;
      } catch {
        return false;
      }
    };
    expect(values.map((v) => [v, read(v)])).toEqual(values.map((v) => [v, valid(v)]));
  });
});

function isRead(json: unknown): boolean {
  try {
    readJams(json);
    return true;
  } catch {
    return false;
  }
}

/** Copies of a value, each with one field taken away or replaced by something of another kind. */
function damages(json: unknown): { at: string; json: unknown }[] {
  const out: { at: string; json: unknown }[] = [];
  const visit = (node: unknown, path: (string | number)[]) => {
    if (typeof node !== 'object' || node === null) return;
    for (const key of Object.keys(node)) {
      const at = [...path, key];
      for (const change of ['gone', 'text', 'negative'] as const) {
        const copy = structuredClone(json);
        const parent = path.reduce((o, k) => (o as Record<string, unknown>)[k], copy) as Record<string, unknown>;
        if (change === 'gone') {
          if (Array.isArray(parent)) continue;
          delete parent[key];
        } else parent[key] = change === 'text' ? 'text' : -1;
        out.push({ at: `${at.join('.')} ${change}`, json: copy });
      }
      visit((node as Record<string, unknown>)[key], at);
    }
  };
  visit(json, []);
  return out;
}
