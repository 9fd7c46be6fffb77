import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { randomArrangement, renderArrangement } from '../../src/arranger/index.js';
import { writeWav } from '../../src/audio/index.js';
import { matchTracks, type TrackMatch } from '../../src/matching/index.js';
import {
  CONTRASTS,
  countAlong,
  drillAhead,
  drillPhraseMatched,
  drillTheOne,
  HEARING_CAUTION,
  HIGHEST_PEAK,
  rehearse,
  USUAL_LOUDNESS,
  writePractice,
  PRACTICE_FORMATS,
  type Practice,
} from '../../src/practice/index.js';
import { analyseTrack, type TrackAnalysis } from '../../src/track/index.js';

// FFmpeg (Debian: ffmpeg) reads what was written: its demuxers for chapters and tags, its filter `ebur128` for integrated
// loudness and true peak after EBU R 128 and ITU-R BS.1770. Nothing of ours takes part in the reading.
const hasFfmpeg = spawnSync('ffmpeg', ['-version']).status === 0;

/** EBU R 128 allows 0.5 LU either way where normalising sample by sample is not practicable. */
const TOLERANCE = 0.5;

interface Probe {
  readonly streams: readonly { readonly sample_rate: string; readonly channels: number; readonly codec_name: string }[];
  readonly chapters: readonly { readonly start_time: string; readonly tags: { readonly title: string } }[];
  readonly format: { readonly duration: string; readonly tags?: Readonly<Record<string, string>> };
}

function probe(file: string): Probe {
  const args = ['-v', 'error', '-print_format', 'json', '-show_format', '-show_streams', '-show_chapters', file];
  return JSON.parse(execFileSync('ffprobe', args, { encoding: 'utf8' })) as Probe;
}

function levelOf(file: string): { readonly loudness: number; readonly peak: number } {
  const args = ['-nostats', '-hide_banner', '-i', file, '-af', 'ebur128=peak=true', '-f', 'null', '-'];
  const { stderr } = spawnSync('ffmpeg', args, { encoding: 'utf8', maxBuffer: 1 << 26 });
  const summary = stderr.slice(stderr.lastIndexOf('Summary:'));
  const figure = (name: RegExp) => Number(name.exec(summary)?.[1] ?? NaN);
  return { loudness: figure(/I:\s+(-?[\d.]+) LUFS/), peak: figure(/Peak:\s+(-?[\d.]+) dBFS/) };
}

describe.skipIf(!hasFfmpeg)('practice files, as FFmpeg reads them', () => {
  let folder = '';
  const made = new Map<string, Practice>();

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'barwise-practice-files-'));
    const [a, b, match] = await aPair(folder);
    const [plan] = match.plans;
    const bars = [17, 32] as const;
    made.set('count', await countAlong(a, { bars, times: 2 }));
    made.set('count without the track', await countAlong(a, { bars, track: false }));
    made.set('count, spoken', await countAlong(a, { bars, spoken: 'en' }));
    for (const contrast of CONTRASTS)
      made.set(`rehearsal, ${contrast}`, await rehearse(a, b, match, plan, { contrast }));
    made.set('rehearsal with key lock', await rehearse(a, b, match, plan, { keyLock: true, clicks: 0.5 }));
    made.set('drill the-one', await drillTheOne(a));
    made.set('drill ahead', await drillAhead());
    made.set('drill phrase-matched', await drillPhraseMatched({ a, b, match, plan }));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const written = async (name: string, format: string, sound: Practice['sound']): Promise<string> => {
    const file = join(folder, `${name}.${format}`);
    if (!existsSync(file)) await writePractice(file, sound);
    return file;
  };

  it.each(PRACTICE_FORMATS)('are as loud as they say, and under −1 dBTP: %s', async (format) => {
    for (const [name, { sound, level }] of made) {
      const file = await written(name, format, sound);
      const { loudness, peak } = levelOf(file);
      // what lossy coding takes away at the top is heard least and measured most: clicks lose a third of a decibel
      expect(peak, name).toBeLessThanOrEqual(HIGHEST_PEAK);
      expect(Math.abs(loudness - (level.integratedLufs ?? NaN)), name).toBeLessThanOrEqual(
        format === 'mp3' ? 0.4 : 0.1,
      );
      if (!level.softer) expect(Math.abs(loudness - USUAL_LOUDNESS), name).toBeLessThanOrEqual(TOLERANCE);
    }
  });

  it.each(PRACTICE_FORMATS)('carry chapters or cue points, title, caution and rate: %s', async (format) => {
    for (const [name, { sound }] of made) {
      const { streams, chapters, format: container } = probe(await written(name, format, sound));
      expect(streams[0], name).toMatchObject({ sample_rate: '44100', channels: 2 });
      expect(Number(container.duration)).toBeCloseTo(sound.left.length / 44_100, format === 'mp3' ? 0 : 2);
      expect(
        chapters.map(({ tags }) => tags.title),
        name,
      ).toEqual(sound.markers.map(({ label }) => label));
      chapters.forEach(({ start_time }, i) => expect(Number(start_time)).toBeCloseTo(sound.markers[i].time, 2));
      const tags = Object.fromEntries(Object.entries(container.tags ?? {}).map(([k, v]) => [k.toLowerCase(), v]));
      expect(tags['title'], name).toBe(sound.title);
      expect(tags['comment'], name).toContain(HEARING_CAUTION);
    }
  });
});

/** The first two arranged tracks that can be blended, analysed as they sound. */
async function aPair(folder: string): Promise<[TrackAnalysis, TrackAnalysis, TrackMatch]> {
  const tracks: TrackAnalysis[] = [];
  for (let seed = 1; ; seed++) {
    const { left, right, sampleRate } = renderArrangement(randomArrangement(seed));
    const file = join(folder, `${seed}.wav`);
    await writeWav(file, [left, right], sampleRate);
    const b = await analyseTrack(file);
    for (const a of tracks) {
      const match = matchTracks(a, b);
      if (match.plans[0].kind === 'blend' && Math.abs(match.tempo.rateB - 1) > 0.005) return [a, b, match];
    }
    tracks.push(b);
  }
}
