import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseFile } from 'music-metadata';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openAudio } from '../../src/audio/index.js';
import { matchTracks } from '../../src/matching/index.js';
import { clickFor, countAlong, drillAhead, rehearse, writePractice } from '../../src/practice/index.js';
import { measure } from '../../src/practice/mix/master.js';
import { highPass } from '../../src/practice/mix/plain.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { clickNear, clickRecord, energy, RATE, tempFolder } from './click-record.js';

let temp: Awaited<ReturnType<typeof tempFolder>>;
let a: TrackAnalysis;
let b: TrackAnalysis;
beforeAll(async () => {
  temp = await tempFolder();
  a = await clickRecord(temp.folder, 'a', 124, 1000);
  b = await clickRecord(temp.folder, 'b', 126, 3000);
});
afterAll(() => temp.remove());

describe('clicks', () => {
  it('sound different for each bar of the group, and for the beats between', () => {
    const sounds = [1, 2, 3, 4]
      .map((groupBar) => clickFor({ beat: 1, groupBar }))
      .concat(clickFor({ beat: 2, groupBar: 1 }));
    for (const [i, x] of sounds.entries()) {
      for (const y of sounds.slice(i + 1)) {
        const n = Math.min(x.length, y.length);
        let [xy, xx, yy] = [0, 0, 0];
        for (let k = 0; k < n; k++) [xy, xx, yy] = [xy + x[k] * y[k], xx + x[k] ** 2, yy + y[k] ** 2];
        expect(Math.abs(xy) / Math.sqrt(xx * yy)).toBeLessThan(0.9);
      }
    }
  });

  it('are an even ladder of pitches: a major chord on A5, 880 Hz (ISO 16: A4 is 440 Hz)', () => {
    const pitches = [1, 2, 3, 4].map((groupBar) => strongest(clickFor({ beat: 1, groupBar })));
    const semitones = pitches.map((p) => Math.round(12 * Math.log2(p / 880)));
    expect(semitones).toEqual([0, 4, 7, 12]);
  });
});

describe('count-along', () => {
  it('clicks on every beat of the range, after a count-in', async () => {
    const { sound } = await countAlong(a, { bars: [17, 20], leadIn: 1, track: false, times: 2 });
    const beat = 60 / 124;
    const onset = (time: number) =>
      energy(sound, time, time + 0.02) / (energy(sound, time - 0.03, time - 0.005) + 1e-9);
    for (let i = 1; i < 4 + 2 * 16; i++) expect(onset(i * beat)).toBeGreaterThan(3);
    expect(sound.markers[0].label).toBe('count-in');
    expect(sound.markers[1].time).toBeCloseTo(4 * beat, 3);
  });

  it('lays the clicks on the beats of the track', async () => {
    const { sound } = await countAlong(a, { bars: [17, 20], leadIn: 1, clicks: 0 });
    const beat = 60 / 124;
    for (let i = 5; i < 18; i++) expect(clickNear(sound.left, 1000, i * beat)).toBeCloseTo(i * beat, 3);
  });

  it('says the number of the bar where a voice is asked for, its vowel on the one', async () => {
    const { sound } = await countAlong(a, { bars: [17, 20], leadIn: 0, track: false, spoken: 'en' });
    const beat = 60 / 124;
    const [{ time: start }] = sound.markers;
    for (const bar of [0, 1, 2, 3]) {
      const one = start + bar * 4 * beat;
      // a word lasts longer than any click; the loudest of it comes behind its one, and little of it before
      expect(energy(sound, one, one + 0.2)).toBeGreaterThan(1);
      expect(energy(sound, one - 0.2, one - 0.01)).toBeLessThan(0.25 * energy(sound, one, one + 0.2));
      expect(energy(sound, one, one + 0.05)).toBeGreaterThan(energy(sound, one - 0.05, one));
    }
  });

  it('refuses bars that are not there', async () => {
    await expect(countAlong(a, { bars: [900, 901] })).rejects.toMatchObject({ code: 'bad-option' });
  });
});

describe('practice files', () => {
  it('carry their chapters, as music-metadata reads them, and the caution', async () => {
    const match = matchTracks(a, b);
    const { sound } = await rehearse(a, b, match, match.plans[0]);
    const file = join(temp.folder, 'r.mp3');
    await writePractice(file, sound);
    const read = await parseFile(file, { includeChapters: true });
    expect(read.format.chapters?.map((c) => c.title)).toEqual(sound.markers.map((m) => m.label));
    read.format.chapters?.forEach((c, i) => expect(c.start).toBeCloseTo(sound.markers[i].time, 2));
    expect(JSON.stringify(read.common.comment)).toContain('Mind your hearing');
    expect(read.common.title).toBe('Rehearsal');
  });

  it('are FLAC with chapters as Vorbis comments', async () => {
    const { sound } = await drillAhead();
    const file = join(temp.folder, 'd.flac');
    await writePractice(file, sound);
    const { native } = await parseFile(file);
    const tags = Object.fromEntries((native['vorbis'] ?? []).map(({ id, value }) => [id, value]));
    expect(tags['CHAPTER001']).toBe('00:00:00.000');
    expect(tags['CHAPTER002NAME']).toBe('question 2');
  });

  it('are WAV with cue points at the frames of their markers, and still whole sound', async () => {
    const { sound } = await drillAhead();
    const file = join(temp.folder, 'd.wav');
    await writePractice(file, sound);
    const bytes = await readFile(file);
    expect(bytes.readUInt32LE(4)).toBe(bytes.length - 8);
    const cue = bytes.indexOf('cue ');
    expect(bytes.readUInt32LE(cue + 8)).toBe(sound.markers.length);
    sound.markers.forEach(({ time }, i) => {
      expect(bytes.readUInt32LE(cue + 12 + 24 * i + 4)).toBe(Math.round(time * RATE));
    });
    const { info } = await openAudio(file);
    expect(info.durationSeconds).toBeCloseTo(sound.left.length / RATE, 4);
  });

  it('stay at or under −1 dBTP in every format, also after lossy coding', async () => {
    const { sound } = await drillAhead({ loudness: -9 });
    for (const ending of ['wav', 'flac', 'mp3']) {
      const file = join(temp.folder, `loud.${ending}`);
      await writePractice(file, sound);
      const { source } = await openAudio(file);
      const [left, right]: number[][] = [[], []];
      for await (const block of source.blocks()) {
        for (let i = 0; i < block[0].length; i++) {
          left.push(block[0][i]);
          right.push((block[1] ?? block[0])[i]);
        }
      }
      const level = measure({ left: Float32Array.from(left), right: Float32Array.from(right) });
      expect(level.truePeakDbtp).toBeLessThanOrEqual(-1);
    }
  });

  it('are not written under a name that says no format', async () => {
    const { sound } = await drillAhead();
    await expect(writePractice(join(temp.folder, 'x.aiff'), sound)).rejects.toMatchObject({ code: 'bad-option' });
  });
});

describe('the plain mixer', () => {
  it('takes the bass out and leaves what is above: −6 dB at its corner after both filters (Butterworth: −3 dB each)', () => {
    const gain = (pitch: number) => {
      const tone = Float32Array.from({ length: RATE }, (_, i) => Math.sin((2 * Math.PI * pitch * i) / RATE));
      const out = highPass(highPass(tone)).subarray(RATE / 2);
      return 10 * Math.log10(out.reduce((sum, x) => sum + x * x, 0) / (RATE / 4));
    };
    expect(gain(180)).toBeCloseTo(-6.02, 1);
    expect(gain(50)).toBeLessThan(-40);
    expect(Math.abs(gain(2000))).toBeLessThan(0.1);
  });
});

/** Pitch with the most energy, in hertz, by a plain transform over a grid of a quarter semitone. */
function strongest(sound: Float32Array): number {
  let [best, at] = [-1, 0];
  for (let q = -48; q < 96; q++) {
    const pitch = 880 * 2 ** (q / 48);
    let [re, im] = [0, 0];
    for (let i = 0; i < sound.length; i++) {
      re += sound[i] * Math.cos((2 * Math.PI * pitch * i) / RATE);
      im += sound[i] * Math.sin((2 * Math.PI * pitch * i) / RATE);
    }
    if (re * re + im * im > best) [best, at] = [re * re + im * im, pitch];
  }
  return at;
}
