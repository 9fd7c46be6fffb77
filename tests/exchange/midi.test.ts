import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { MIDI_DIVISION, readMidi, toMidi } from '../../src/exchange/index.js';
import { tempoClock, tempoMap } from '../../src/exchange/midi/tempo-map.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';

const hex = (bytes: Uint8Array) => Buffer.from(bytes).toString('hex');
const withBeats = (start: number, period: number | ((i: number) => number), count: number): TrackAnalysis => {
  const analysis = sampleAnalysis();
  const beats = [start];
  for (let i = 1; i < count; i++) beats.push(beats[i - 1] + (typeof period === 'number' ? period : period(i)));
  const bpm = 60 / (typeof period === 'number' ? period : period(1));
  const stored = beats.map((t) => Math.round(t * 1e4) / 1e4);
  const bars = Array.from({ length: Math.floor(count / 4) }, (_, i) => ({ ...analysis.bars[0], number: i + 1, start: stored[4 * i], beats: 4, groupBar: (i % 4) + 1 })); // prettier-ignore
  return {
    ...analysis,
    tempo: { ...analysis.tempo, bpm },
    beats: stored,
    bars,
    sections: [],
    phrases: [],
    irregularities: [],
  };
};

describe('bytes of a MIDI file', () => {
  // Standard MIDI Files 1.0 (read): a tempo of 128 BPM is FF 51 03 07 27 0E, of 120 BPM FF 51 03 07 A1 20; 4/4 is
  // FF 58 04 04 02 18 08; a marker is FF 06 and its length; a track ends with FF 2F 00.
  it.each([
    [128, 'ff510307270e'],
    [120, 'ff510307a120'],
  ])('say %i BPM as the standard does', (bpm, bytes) => {
    const file = hex(toMidi(withBeats(0, 60 / bpm, 64), { click: false }));
    expect(file.startsWith('4d546864000000060001')).toBe(true);
    expect(file).toContain(`00${bytes}`);
    expect(file).toContain('ff580404021808');
    expect(file.endsWith('ff2f00')).toBe(true);
  });

  it('say sections as markers, in UTF-8', () => {
    const analysis = withBeats(0, 0.5, 64);
    const section = { ...sampleAnalysis().sections[0], start: 0 };
    const file = hex(toMidi({ ...analysis, sections: [section] }, { click: false }));
    expect(file).toContain(`ff0605${Buffer.from('intro').toString('hex')}`);
    const titled = { ...analysis, source: { ...analysis.source, tags: { ...analysis.source.tags, title: '船歌' } } };
    expect(hex(toMidi(titled))).toContain(`ff0306${Buffer.from('船歌').toString('hex')}`);
  });
});

describe('a tempo map', () => {
  it.each([
    ['a steady track at an even tempo', 0, 0.46875],
    ['one at an odd tempo', 0.4213, 60 / 123.457],
    ['a drummer who wanders', 1.2, (i: number) => 0.5 + 0.01 * Math.sin(i / 9) + 0.004 * Math.sin(i * 1.7)],
    ['a tempo that steps', 0.1, (i: number) => (i < 200 ? 0.5 : 0.47)],
  ] as const)('keeps every beat of %s within 0.1 ms, however long it goes on', (_, start, period) => {
    const analysis = withBeats(start, period, 3000);
    const { beats } = readMidi(toMidi(analysis));
    const lead = beats.findIndex((t) => Math.abs(t - analysis.beats[0]) < 1e-4);
    const errors = analysis.beats.map((t, i) => Math.abs(beats[lead + i] - t));
    expect(Math.max(...errors)).toBeLessThan(1e-4);
  });

  it('has one step for a steady track, and as few as do', () => {
    expect(
      tempoMap(
        Array.from({ length: 1000 }, (_, i) => i * 0.46875),
        960,
      ),
    ).toEqual([{ tick: 0, microseconds: 468_750 }]);
    const odd = tempoMap(
      Array.from({ length: 1000 }, (_, i) => (i * 60) / 123.457),
      960,
    );
    expect(odd.length).toBeLessThan(20);
  });

  it('gives the time of any tick', () => {
    const steps = [
      { tick: 0, microseconds: 500_000 },
      { tick: 960, microseconds: 400_000 },
    ];
    expect([0, 480, 960, 1440, 1920].map(tempoClock(steps, 960))).toEqual([0, 0.25, 0.5, 0.7, 0.9]);
  });

  it('refuses what no MIDI file can say', () => {
    expect(() => tempoMap([0, 20], 960)).toThrow(RangeError);
    expect(() => toMidi({ ...sampleAnalysis(), beats: [], bars: [] })).toThrow(RangeError);
  });
});

describe('a track and back', () => {
  const analysis = sampleAnalysis();
  const count = readMidi(toMidi(analysis));

  it('keeps bars and marks in their places', () => {
    for (const bar of analysis.bars) {
      const nearest = Math.min(...count.downbeats.map((t) => Math.abs(t - bar.start)));
      expect(nearest).toBeLessThan(1e-4);
    }
    const sections = count.marks.filter((m) => m.kind === 'marker');
    expect(sections.map((m) => m.text)).toEqual(analysis.sections.map((s) => s.function));
    sections.forEach((m, i) => expect(Math.abs(m.time - analysis.sections[i].start)).toBeLessThan(1e-4));
    expect(count.marks.filter((m) => m.kind === 'cue point')).toHaveLength(analysis.phrases.length);
  });

  it('keeps bars of other lengths', () => {
    const odd = withBeats(0.3, 0.5, 64);
    const bars = odd.bars.map((bar, i) => (i === 5 ? { ...bar, beats: 6 } : bar));
    let beat = 0;
    const counted = bars.slice(0, 14).map((bar) => {
      const start = odd.beats[beat];
      beat += bar.beats;
      return { ...bar, start };
    });
    const read = readMidi(toMidi({ ...odd, bars: counted }));
    for (const bar of counted)
      expect(Math.min(...read.downbeats.map((t) => Math.abs(t - bar.start)))).toBeLessThan(1e-4);
  });

  it('strikes the click on every beat, otherwise on ones', () => {
    const [, click] = parseMidi(toMidi(analysis)).tracks;
    const strokes = click.filter((e) => e.type === 'noteOn');
    expect(strokes).toHaveLength(analysis.bars.reduce((sum, bar) => sum + bar.beats, 0));
    expect(new Set(strokes.map((e) => e.noteNumber)).size).toBe(3);
    expect(strokes.every((e) => e.channel === 9)).toBe(true);
  });
});

it('reads a file without a tempo at 120 and in 4/4, as the standard has it', () => {
  // MThd, format 0, one track, 96 ticks; a note of four quarters; end.
  const bytes = Buffer.from(
    '4d54686400000006000000010060' + '4d54726b0000000d' + '00903c40' + '8300803c40'.slice(0, 10) + '00ff2f00',
    'hex',
  );
  const { beats, downbeats } = readMidi(bytes);
  expect(beats.slice(0, 3)).toEqual([0, 0.5, 1]);
  expect(downbeats[0]).toBe(0);
  expect(MIDI_DIVISION % 24).toBe(0);
});

it('refuses what is no MIDI file in one sentence', () => {
  for (const bytes of [new Uint8Array(0), Buffer.from('RIFFxxxx'), toMidi(sampleAnalysis()).subarray(0, 30)])
    expect(() => readMidi(bytes, 'a.mid')).toThrow(/^a\.mid is not a readable Standard MIDI File: save it anew\.$/);
});
