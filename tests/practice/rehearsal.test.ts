import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { matchTracks } from '../../src/matching/index.js';
import { CONTRASTS, lateBy, rehearse, type RehearsalOptions } from '../../src/practice/index.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { clickNear, clickRecord, tempFolder } from './click-record.js';

const [PITCH_A, PITCH_B] = [1000, 3000];
let temp: Awaited<ReturnType<typeof tempFolder>>;
let a: TrackAnalysis;
let b: TrackAnalysis;

beforeAll(async () => {
  temp = await tempFolder();
  a = await clickRecord(temp.folder, 'a', 124, PITCH_A);
  b = await clickRecord(temp.folder, 'b', 126, PITCH_B);
});
afterAll(() => temp.remove());

/** Distances of B's clicks from A's on every eighth beat of the overlap, in seconds, measured in the samples. */
async function distances(options: RehearsalOptions, shift = 0): Promise<number[]> {
  const match = matchTracks(a, b, { keyLock: options.keyLock ?? false });
  const { sound, clock } = await rehearse(a, b, match, match.plans[0], { fade: 'both', ...options });
  const pitchB = options.keyLock ? PITCH_B : PITCH_B * match.tempo.rateB;
  const out: number[] = [];
  for (let t = clock.start + shift + 2 * clock.beat; t < clock.out - 2 * clock.beat; t += 7 * clock.beat) {
    const beat = Math.round((t - clock.start) / clock.beat) * clock.beat + clock.start;
    out.push(clickNear(sound.left, pitchB, beat) - clickNear(sound.left, PITCH_A, beat));
  }
  return out;
}

describe('a rehearsal', () => {
  it.each([
    ['with key lock off, natively mixed', { mixer: 'native' }],
    ['with key lock off, plainly mixed', { mixer: 'plain' }],
    ['with key lock on', { keyLock: true }],
  ] as const)('brings the beats of both records together within 2 ms %s', async (_, options) => {
    const found = await distances(options);
    expect(found.length).toBeGreaterThan(8);
    for (const distance of found) expect(Math.abs(distance)).toBeLessThan(0.002);
  });

  it.each(CONTRASTS)('is off by exactly what it says: %s', async (contrast) => {
    const match = matchTracks(a, b);
    const late = lateBy(contrast, a, match);
    const right = await rehearse(a, b, match, match.plans[0], { fade: 'both', mixer: 'plain' });
    const off = await rehearse(a, b, match, match.plans[0], { fade: 'both', mixer: 'plain', contrast });
    // the very first click of B: found where it sounds, not where the clock says
    const pitch = PITCH_B * match.tempo.rateB;
    const first = clickNear(right.sound.left, pitch, right.clock.start);
    const firstOff = clickNear(off.sound.left, pitch, off.clock.start + late);
    expect(firstOff - first).toBeCloseTo(late, 3);
    const expected = { right: 0, beat: 1, bar: 4, group: 16, phrase: 64 }[contrast] * (60 / 124);
    expect(late).toBeCloseTo(expected, 9);
  });

  it('is at −16 LUFS or as near as a true peak of −1 dBTP lets it', async () => {
    const match = matchTracks(a, b);
    const { level } = await rehearse(a, b, match, match.plans[0]);
    expect(level.truePeakDbtp).toBeLessThanOrEqual(-1);
    if (!level.softer) expect(level.integratedLufs).toBeCloseTo(-16, 1);
  });

  it('lets B alone through once A is out, and A alone before B starts', async () => {
    const match = matchTracks(a, b);
    const { sound, clock } = await rehearse(a, b, match, match.plans[0]);
    const energy = (from: number, to: number) =>
      sound.left.subarray(Math.round(from * 44_100), Math.round(to * 44_100)).reduce((sum, x) => sum + x * x, 0);
    expect(energy(0.01, clock.start - 0.1)).toBeGreaterThan(0);
    expect(energy(clock.out + 0.2, clock.length - 0.1)).toBeGreaterThan(0);
  });
});
