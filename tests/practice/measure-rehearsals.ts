/**
 * How near the true beats of two arranged tracks come to each other in a rehearsal, measured in its samples:
 *
 *   npx tsx tests/practice/measure-rehearsals.ts FOLDER [PAIRS]
 *
 * FOLDER is that of `tests/matching/measure-pairs.ts`. Both tracks are analysed as they sound; what is rendered are clicks on
 * the beats of their truth, so that no analysis of ours takes part in the measuring.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ArrangementTruth } from '../../src/arranger/index.js';
import { matchTracks } from '../../src/matching/index.js';
import { rehearse } from '../../src/practice/index.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { clickNear, writeClicks } from './click-record.js';

const [PITCH_A, PITCH_B] = [1000, 3000];
const [folder, wanted = '10'] = process.argv.slice(2);
if (folder === undefined) throw new Error('Give a folder.');
const read = <T>(file: string) => JSON.parse(readFileSync(join(folder, file), 'utf8')) as T;
const tracks = readdirSync(folder)
  .filter((file) => /^\d+\.json$/.test(file))
  .map((file) => ({
    name: file.slice(0, -5),
    analysis: read<TrackAnalysis>(file),
    truth: read<ArrangementTruth>(file.replace('.json', '.truth.json')),
  }));
const temporary = mkdtempSync(join(tmpdir(), 'barwise-rehearsals-'));
const all: number[] = [];
let made = 0;
for (const [i, a] of tracks.entries()) {
  if (made >= Number(wanted)) break;
  for (let step = 1; step < tracks.length; step++) {
    const b = tracks[(i + step * 7) % tracks.length];
    const steady = [a, b].every(({ truth }) => truth.irregularities.every(({ kind }) => kind !== 'drift'));
    if (a === b || !steady) continue;
    const match = matchTracks(a.analysis, b.analysis);
    if (match.plans[0].kind !== 'blend' || match.tempo.ratio !== 1) continue;
    for (const keyLock of [false, true]) {
      const found = await distances(a, b, match, keyLock);
      all.push(...found);
      const sorted = found.map((d) => Math.abs(d) * 1000).sort((x, y) => x - y);
      const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))].toFixed(2);
      console.log(
        `${a.name} + ${b.name}, ${((match.tempo.rateB - 1) * 100).toFixed(2)} %, key lock ${keyLock ? 'on' : 'off'}: ${found.length} beats, median ${at(0.5)} ms, largest ${at(1)} ms`,
      );
    }
    made++;
    break;
  }
}
rmSync(temporary, { recursive: true, force: true });
const within = all.filter((d) => Math.abs(d) <= 0.002).length;
console.log(`${all.length} beats, ${within} of them within 2 ms`);

type Known = (typeof tracks)[number];

async function distances(
  a: Known,
  b: Known,
  match: ReturnType<typeof matchTracks>,
  keyLock: boolean,
): Promise<number[]> {
  const [fileA, fileB] = [join(temporary, 'a.wav'), join(temporary, 'b.wav')];
  await writeClicks(fileA, a.truth.beats, PITCH_A);
  await writeClicks(fileB, b.truth.beats, PITCH_B);
  const clicked = (t: TrackAnalysis, file: string) => ({ ...t, source: { ...t.source, file } });
  const { sound, clock } = await rehearse(
    clicked(a.analysis, fileA),
    clicked(b.analysis, fileB),
    match,
    match.plans[0],
    {
      fade: 'both',
      keyLock,
    },
  );
  const out: number[] = [];
  const pitchB = keyLock ? PITCH_B : PITCH_B * match.tempo.rateB;
  for (let time = clock.start + 2 * clock.beat; time < clock.out - 2 * clock.beat; time += clock.beat) {
    out.push(clickNear(sound.left, pitchB, time) - clickNear(sound.left, PITCH_A, time));
  }
  return out;
}
