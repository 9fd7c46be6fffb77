import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { demoCrate, randomArrangement, renderArrangement, type Arrangement } from '../../src/arranger/index.js';
import { encodeWav } from '../../src/audio/index.js';
import {
  estimateOfAnalysis,
  irregularityHits,
  layerHits,
  readArrangementTruth,
  scoreTrack,
} from '../../src/evaluation/index.js';
import { analyseTrack, type TrackAnalysis } from '../../src/track/index.js';
import { inPlantedWords, type ToldIrregularity } from './same-phrase.js';
import type { Job, Outcome } from './job.js';
import { judgements } from './judgements.js';
import { confidencesOf } from './song.js';

type SyntheticJob = Exclude<Job, { kind: 'song' }>;

/** Renders a synthetic track, analyses the file and scores it against the exact truth. */
export async function scoreSynthetic(job: SyntheticJob): Promise<Outcome> {
  const demo = job.kind === 'demo' ? demoCrate()[job.index] : null;
  const arrangement: Arrangement = demo ? demo.arrangement : randomArrangement((job as { seed: number }).seed);
  const { left, right, sampleRate, truth: planted } = renderArrangement(arrangement);
  const id = demo ? demo.name : `seed-${String((job as { seed: number }).seed).padStart(4, '0')}`;
  const truth = readArrangementTruth(id, planted, left.length / sampleRate, arrangement.style);
  const folder = mkdtempSync(join(tmpdir(), 'barwise-arranged-'));
  try {
    const file = join(folder, `${id}.wav`);
    writeFileSync(file, encodeWav([left, right], sampleRate));
    const before = process.cpuUsage();
    const a = await analyseTrack(file);
    const used = process.cpuUsage(before);
    const ours = scoreTrack(truth, estimateOfAnalysis(a));
    const bar = (60 / planted.bpm) * planted.beatsPerBar;
    const told = inPlantedWords(a.irregularities.map(withLength), planted, bar / 2);
    const named = (list: readonly { kind: string; bar: number }[]) =>
      list.map((i) => `${i.kind}@${i.bar}`).join(' ') || 'nothing';
    const key = { confidence: a.key.confidence ?? 0, right: ours.key === 1 };
    return {
      id,
      group: truth.group,
      maker: truth.maker,
      cut: 0,
      scores: { barwise: ours },
      judgements: [
        ...judgements(confidencesOf(a), ours, truth),
        ...(a.key.tonic ? [{ of: 'key' as const, ...key }] : []),
      ],
      irregularities: irregularityHits(planted.irregularities, told, bar / 2),
      layers: layerHits(planted.events, a.events, bar / 2),
      note: `planted ${named(planted.irregularities)}; found ${named(a.irregularities)}`,
      seconds: (used.user + used.system) / 1e6,
      duration: truth.duration,
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function withLength({ kind, time, parameters }: TrackAnalysis['irregularities'][number]): ToldIrregularity {
  const { bars, nextStart } = parameters;
  return { kind, time, ...(typeof bars === 'number' && typeof nextStart === 'number' ? { bars, nextStart } : {}) };
}
