import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { agreementWith, correctionsOfCount, countOfJams, readJams, type Agreement } from '../../src/exchange/index.js';
import { takeCorrections } from '../../src/track/index.js';

/**
 * How far the count follows when the truth of songs is taken over as somebody's JAMS: shares of beats and bar ones within
 * 70 ms and of section starts within half a second, before and after. `npx tsx tests/corpus/taken-over.ts FOLDER`, where
 * FOLDER has `audio/ID.wav` and `truth/ID.json`.
 */
interface SongTruth {
  readonly beats: readonly number[];
  readonly downbeats: readonly number[];
  readonly sections?: readonly { readonly start: number; readonly end: number; readonly label: string }[];
}

const WHAT = ['beats', 'downbeats', 'sections'] as const;

const annotation = (namespace: string, data: unknown) => ({ namespace, data, annotation_metadata: {}, sandbox: {} });
const row = (time: number, value: unknown, duration = 0) => ({ time, duration, value, confidence: null });

/** The truth as JAMS with beats counted from their bar ones; JAMS has no times before the start. */
function asJams({ beats, downbeats, sections = [] }: SongTruth): unknown {
  const ones = new Set(downbeats.map((t) => t.toFixed(3)));
  let position = 0;
  const counted = beats
    .filter((t) => t >= 0)
    .map((t) => row(t, (position = ones.has(t.toFixed(3)) ? 1 : position > 0 ? position + 1 : 0) || null));
  const parts = sections.filter((s) => s.start >= 0).map((s) => row(s.start, s.label, s.end - s.start));
  return { annotations: [annotation('beat', counted), annotation('segment_open', parts)] };
}

const [folder] = process.argv.slice(2);
const shares: Record<string, number[]> = {};
const add = (name: string, { found, of }: Agreement) => of > 0 && (shares[name] ??= []).push(found / of);
for (const name of readdirSync(join(folder, 'truth')).filter((n) => n.endsWith('.json'))) {
  const id = name.replace(/\.json$/, '');
  const truth = JSON.parse(readFileSync(join(folder, 'truth', name), 'utf8')) as SongTruth;
  const count = countOfJams(readJams(asJams(truth), id));
  const { corrections } = correctionsOfCount(count);
  const options = { from: id, dryRun: true, correctionsFolder: join(folder, 'no-corrections') };
  const { before, after, refused } = await takeCorrections(join(folder, 'audio', `${id}.wav`), corrections, options);
  const [was, is] = [agreementWith(count, before), agreementWith(count, after)];
  for (const what of WHAT) {
    add(`${what} before`, was[what]);
    add(`${what} after`, is[what]);
  }
  const told = WHAT.map((what) => `${what} ${is[what].found}/${is[what].of}`).join(', ');
  console.log(`${id}: ${corrections.length} corrections, ${refused.length} refused; ${told}`);
}
for (const [name, all] of Object.entries(shares))
  console.log(`${name}: ${(all.reduce((a, b) => a + b, 0) / all.length).toFixed(4)} of ${all.length} songs`);
