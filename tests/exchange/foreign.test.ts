import { describe, expect, it } from 'vitest';
import {
  agreementWith,
  correctionsOfCount,
  countOfJams,
  countOfMidi,
  readForeignCount,
  readJams,
  readMidi,
  shifted,
  TAKEABLE,
  toJams,
  toMidi,
  type ForeignCount,
} from '../../src/exchange/index.js';
import { correctionSchema, gridOf, type TrackAnalysis } from '../../src/track/index.js';
import { toStoredTime } from '../../src/units/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';

const analysis = sampleAnalysis();
const jamsOf = (a: TrackAnalysis) => countOfJams(readJams(JSON.parse(JSON.stringify(toJams(a)))));
const midiOf = (a: TrackAnalysis) => countOfMidi(readMidi(toMidi(a)));
const beats = (n: number, period = 0.5, first = 0) => Array.from({ length: n }, (_, i) => first + i * period);
const count = (over: Partial<ForeignCount> = {}): ForeignCount => ({
  bpm: null,
  beatsPerBar: null,
  beats: [],
  downbeats: [],
  firstOne: null,
  phrases: [],
  sections: [],
  ...over,
});
/** The analysis with the times of a count in place of its own. */
function withCount(a: TrackAnalysis, { beats }: ForeignCount): TrackAnalysis {
  const own = beats.filter((t) => t >= a.beats[0] - 1e-3).slice(0, a.beats.length);
  const grid = gridOf(a);
  return { ...a, beats: own, bars: a.bars.map((bar, i) => ({ ...bar, start: own[grid.bars[i].firstBeat] })) };
}

describe('a track out and in again', () => {
  it('is the same in JAMS: every beat, bar, phrase and section', () => {
    const read = jamsOf(analysis);
    expect(read).toEqual({
      bpm: analysis.tempo.bpm,
      beatsPerBar: 4,
      beats: analysis.beats,
      downbeats: analysis.bars.map((b) => b.start),
      firstOne: analysis.bars[0].start,
      phrases: analysis.phrases.map((p) => p.start),
      sections: analysis.sections.map((s) => ({ time: s.start, label: s.function })),
    });
    expect(toJams(withCount(analysis, read))).toEqual(toJams(analysis));
  });

  it.each([
    ['steady', sampleAnalysis()],
    ['odd', sampleAnalysis(undefined, { bpm: 123.457, firstOne: 1.2345 })],
    ['wandering', wandering(sampleAnalysis())],
  ] as const)('keeps the times of a %s one in MIDI, to the byte when it goes out again', (_, track) => {
    const read = midiOf(track);
    const lead = read.beats.findIndex((t) => t >= track.beats[0]);
    // Not only near: the very times, so that what is written again is the very file.
    expect(read.beats.slice(lead, lead + track.beats.length)).toEqual(track.beats);
    for (const { start } of track.bars) expect(read.downbeats).toContain(start);
    expect(read.sections.map((s) => s.label)).toEqual(track.sections.map((s) => s.function));
    expect(Buffer.from(toMidi(withCount(track, read))).equals(Buffer.from(toMidi(track)))).toBe(true);
  });
});

describe('a foreign count', () => {
  it('comes down to few corrections, every one of them valid', () => {
    const { corrections, notTaken } = correctionsOfCount(jamsOf(analysis));
    corrections.forEach((c) => expect(correctionSchema.parse(c)).toEqual(c));
    expect(corrections.slice(0, 3)).toEqual([
      { kind: 'tempo', bpm: expect.closeTo(124, 1) as number },
      { kind: 'metre', beatsPerBar: 4 },
      { kind: 'first-one', time: 0.42 },
    ]);
    const named = analysis.sections.map((s) => s.function);
    expect(corrections.flatMap((c) => (c.kind === 'section' ? [c.function] : []))).toEqual(named);
    // The one phrase that starts within a section.
    expect(corrections.filter((c) => c.kind === 'phrase')).toHaveLength(1);
    expect(corrections).toHaveLength(3 + named.length + 1);
    expect(notTaken).toEqual([]);
  });

  it('says where bars begin again after one of another length, and nothing of the bars between', () => {
    const times = beats(67);
    const downbeats = times.filter((_, i) => (i < 32 ? i % 4 === 0 : i === 32 || (i >= 35 && (i - 35) % 4 === 0)));
    const { corrections } = correctionsOfCount(count({ beats: times, downbeats, beatsPerBar: 4 }), ['beats', 'bars']);
    expect(corrections).toEqual([
      { kind: 'beat', time: 8 },
      { kind: 'bar', time: 8 },
      { kind: 'bar', time: 17.5 },
    ]);
  });

  it('leaves out a partial bar at the start', () => {
    const times = beats(40);
    const downbeats = times.filter((_, i) => i === 0 || i % 4 === 1);
    const { corrections } = correctionsOfCount(count({ beats: times, downbeats, beatsPerBar: 4 }), ['bars']);
    expect(corrections).toEqual([{ kind: 'bar', time: 8.5 }]);
  });

  it('follows its beats where it states another tempo, and says so', () => {
    const { corrections, notTaken } = correctionsOfCount(count({ bpm: 60, beats: beats(64) }), ['tempo']);
    expect(corrections).toEqual([{ kind: 'tempo', bpm: 120 }]);
    expect(notTaken).toEqual([{ kind: 'tempo-beside-beats', stated: 60, beats: 120 }]);
  });

  it('gives the place of a section whose label is none of ours, and nothing outside its own beats', () => {
    const sections = ['Intro', 'verse', 'Build up', 'DROP', 'coda'].map((label, i) => ({ time: i * 8, label }));
    const { corrections, notTaken } = correctionsOfCount(count({ beats: beats(60), sections }), ['sections']);
    expect(corrections.map((c) => c.kind === 'section' && c.function)).toEqual(['intro', null, 'build-up', 'drop']);
    expect(notTaken).toEqual([{ kind: 'outside', what: 'sections', count: 1 }, { kind: 'label', labels: ['verse'] }]); // prettier-ignore
  });

  it('says what it does not state, of what is wanted', () => {
    const said = correctionsOfCount(count());
    expect(said.corrections).toEqual([]);
    expect(said.notTaken.map((n) => n.kind === 'not-stated' && n.what).sort()).toEqual([...TAKEABLE].sort());
    expect(correctionsOfCount(count(), ['metre']).notTaken).toHaveLength(1);
    expect(correctionsOfCount(count({ beatsPerBar: 1 }), ['metre']).notTaken).toEqual([{ kind: 'out-of-range', what: 'metre', value: 1 }]); // prettier-ignore
    expect(correctionsOfCount(count({ bpm: 900 }), ['tempo']).corrections).toEqual([]);
  });

  it('can be moved in time', () => {
    const moved = shifted(jamsOf(analysis), -0.42);
    expect(moved.firstOne).toBe(0);
    expect(moved.beats[0]).toBe(0);
    expect(shifted(jamsOf(analysis), -1).firstOne).toBeNull();
    expect(shifted(jamsOf(analysis), -1).beats.every((t) => t >= 0)).toBe(true);
  });

  it('is compared with what is counted, within the stretch that both count', () => {
    const own = jamsOf(analysis);
    const n = analysis.beats.length;
    expect(agreementWith(own, analysis).beats).toEqual({ found: n, of: n });
    expect(agreementWith(shifted(own, 0.069), analysis).beats).toEqual({ found: n, of: n });
    expect(agreementWith(shifted(own, 0.071), analysis).beats.found).toBe(0);
    expect(agreementWith(shifted(own, 0.6), analysis).sections.found).toBe(0);
    const longer = { ...own, beats: [...own.beats, 9999] };
    expect(agreementWith(longer, analysis).beats.of).toBe(n);
  });
});

describe('a foreign MIDI file', () => {
  const chunk = (type: string, body: string) => type + (body.length / 2).toString(16).padStart(8, '0') + body;
  const file = (events: string) => Buffer.from(`4d546864000000060000000100${(96).toString(16)}${chunk('4d54726b', events)}`, 'hex'); // prettier-ignore
  // Delta times are of variable length: 0x60 is one quarter of 96 ticks, 0x8c00 is 1536 of them, sixteen quarters.
  const long = '8c00';

  it('states its tempo, bars and markers', () => {
    const marker = (text: string) => `ff06${text.length.toString(16).padStart(2, '0')}${Buffer.from(text).toString('hex')}`; // prettier-ignore
    const bytes = file(`00ff510307a12000ff58040302180800${marker('Intro')}${long}${marker('Drop')}${long}ff2f00`);
    const read = countOfMidi(readMidi(bytes));
    expect([read.beatsPerBar, read.beats[1], read.downbeats[1], read.firstOne]).toEqual([3, 0.5, 1.5, null]);
    expect(read.sections).toEqual([{ time: 0, label: 'Intro' }, { time: 8, label: 'Drop' }]); // prettier-ignore
  });

  it('states nothing by what holds for every file', () => {
    const read = countOfMidi(readMidi(file(`00903c40${long}803c4000ff2f00`)));
    expect(read).toEqual(count());
    expect(readMidi(file(`00903c40${long}803c4000ff2f00`)).beats[1]).toBe(0.5);
  });

  it('states beats but no bars where it has a tempo and no time signature', () => {
    const read = countOfMidi(readMidi(file(`00ff510307270e${long}ff2f00`)));
    expect([read.beats[1], read.downbeats, read.beatsPerBar]).toEqual([toStoredTime(0.46875), [], null]);
  });
});

it('refuses what is not there, no file, and neither JAMS nor MIDI', async () => {
  await expect(readForeignCount('no-such.jams')).rejects.toMatchObject({ code: 'file-missing' });
  await expect(readForeignCount('tests')).rejects.toMatchObject({ code: 'file-unreadable' });
  await expect(readForeignCount('LICENSE')).rejects.toMatchObject({ code: 'damaged', file: 'LICENSE' });
});

/** The same track played by somebody who is never quite on time. */
function wandering(a: TrackAnalysis): TrackAnalysis {
  const off = (i: number) => 0.02 * Math.sin(i / 9) + 0.004 * Math.sin(i * 1.7);
  const times = a.beats.map((t, i) => toStoredTime(t + off(i) - off(0)));
  return withCount(a, count({ beats: times }));
}
