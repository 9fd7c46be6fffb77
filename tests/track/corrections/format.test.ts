import { describe, expect, it } from 'vitest';
import { correctionSchema, parseCorrections, type SaidCorrection } from '../../../src/track/index.js';
import { editCorrections, newCorrections } from '../../../src/track/corrections/format.js';
import type { BarwiseError } from '../../../src/units/index.js';

const DIGEST = 'ab'.repeat(32);
const said = { said: '2026-03-01T20:15:00Z', from: null } as const;
const ALL: SaidCorrection[] = [
  { kind: 'tempo', bpm: 87, ...said },
  { kind: 'metre', beatsPerBar: 3, ...said },
  { kind: 'first-one', time: 12.34, ...said },
  { kind: 'beat', time: 0, ...said },
  { kind: 'phrase', time: 64.2, starts: false, ...said },
  { kind: 'section', time: 64.2, starts: true, function: 'build-up', ...said },
  { kind: 'event', time: 31.5, layer: 'bass', change: 'enters', happens: false, said: null, from: 'annotations.jams' },
];
const failure = (text: string) => {
  try {
    parseCorrections(text, 'x.yaml');
  } catch (error) {
    return (error as BarwiseError).message;
  }
  return 'no error';
};
const file = (body: string) => `version: 1\naudioDigest: ${DIGEST}\ncorrections:\n${body}`;

describe('the file of corrections', () => {
  it('is read as it was written, every kind of correction', () => {
    const text = newCorrections(DIGEST, 'track.flac', ALL);
    expect(parseCorrections(text, 'x.yaml')).toEqual({ audioDigest: DIGEST, corrections: ALL });
  });

  it('keeps what a person wrote around the corrections when one is added or taken away', () => {
    const mine = file(
      '  # heard at the rehearsal\n  - kind: tempo\n    bpm: 87 # sure\n  - kind: beat\n    time: 1.5\n',
    );
    const longer = editCorrections(mine, 'x.yaml', { add: [{ kind: 'first-one', time: 2, ...said }] });
    expect(longer).toContain('# heard at the rehearsal');
    expect(longer).toContain('bpm: 87 # sure');
    expect(parseCorrections(longer, 'x.yaml').corrections.map((c) => c.kind)).toEqual(['tempo', 'beat', 'first-one']);
    const shorter = editCorrections(longer, 'x.yaml', { remove: [1] });
    expect(parseCorrections(shorter, 'x.yaml').corrections.map((c) => c.kind)).toEqual(['tempo', 'first-one']);
    expect(shorter).toContain('bpm: 87 # sure');
    const none = editCorrections(editCorrections(shorter, 'x.yaml', { remove: [0] }), 'x.yaml', { remove: [0] });
    expect(parseCorrections(none, 'x.yaml').corrections).toEqual([]);
    const again = editCorrections(none, 'x.yaml', { add: [{ kind: 'beat', time: 3, ...said }] });
    expect(parseCorrections(again, 'x.yaml').corrections).toHaveLength(1);
  });

  it('may leave out what goes without saying', () => {
    const { corrections } = parseCorrections(
      file('  - { kind: section, time: 64.2 }\n  - { kind: phrase, time: 1 }\n'),
      'x',
    );
    expect(corrections).toEqual([
      { kind: 'section', time: 64.2, starts: true, function: null, said: null, from: null },
      { kind: 'phrase', time: 1, starts: true, said: null, from: null },
    ]);
    expect(parseCorrections(`version: 1\naudioDigest: ${DIGEST}\ncorrections:\n`, 'x').corrections).toEqual([]);
  });

  it.each([
    ['a tab for an indent', file('\t- kind: tempo\n'), 4],
    ['a bracket that is not closed', file('  - { kind: tempo, bpm: 87\n'), 5],
    ['a kind that does not exist', file('  - kind: tempo\n    bpm: 87\n  - kind: key\n'), 6],
    ['a value out of range', file('  - kind: tempo\n    bpm: 8700\n'), 5],
    ['a time before the start', file('  - kind: beat\n    time: -1\n'), 5],
    ['a word for a number', file('  - kind: beat\n    time: soon\n'), 5],
    ['a name that is unknown', file('  - kind: beat\n    time: 1\n    strength: 2\n'), 4],
    ['the same name twice', file('  - kind: beat\n    time: 1\n    time: 2\n'), 6],
    ['a version that never was', `version: 0\naudioDigest: ${DIGEST}\ncorrections: []\n`, 1],
    ['no digest', `version: 1\naudioDigest: abc\ncorrections: []\n`, 2],
    ['an alias', file('  - &a { kind: beat, time: 1 }\n  - *a\n'), 4],
    ['a tag', file('  - !!js/function { kind: beat, time: 1 }\n'), 4],
    ['a list of something else', file('  - 12\n'), 4],
    ['two documents', `${file('  - { kind: beat, time: 1 }\n')}---\nversion: 1\n`, 5],
  ])('says the line of %s', (_, text, line) => {
    const message = failure(text);
    expect(message).toMatch(new RegExp(`^x\\.yaml, line ${line}: `));
    expect(message.split('\n')).toHaveLength(1);
  });

  it('is not led astray by nesting without end, size without end or a billion laughs', () => {
    expect(failure('['.repeat(100_000))).toMatch(/^x\.yaml, line 1: /);
    expect(failure(`${file('')}# ${'x'.repeat(1_100_000)}`)).toMatch(/too large/);
    const laughs = [
      'a: &a [1,1]',
      ...'bcdefg'.split('').map((n, i) => `${n}: &${n} [*${'abcdef'[i]},*${'abcdef'[i]}]`),
    ];
    expect(failure(laughs.join('\n'))).toMatch(/^x\.yaml, line 1: anchors/);
  });

  it('writes a file name that looks like YAML as the text it is', () => {
    const name = 'a: [b]\n- *c # "d" \u202e\u009b.wav';
    const { corrections } = parseCorrections(newCorrections(DIGEST, name, ALL.slice(0, 1)), 'x');
    // eslint-disable-next-line no-control-regex
    expect(newCorrections(DIGEST, name, [])).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
    expect(corrections).toEqual(ALL.slice(0, 1));
  });

  it('takes no correction that its schema does not know', () => {
    expect(correctionSchema.safeParse({ kind: 'beat', time: Infinity }).success).toBe(false);
    expect(correctionSchema.safeParse({ kind: 'beat', time: NaN }).success).toBe(false);
    expect(correctionSchema.safeParse({ kind: 'event', time: 1, layer: 'flute', change: 'enters' }).success).toBe(
      false,
    );
  });
});
