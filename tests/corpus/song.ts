import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { encodeWav } from '../../src/audio/index.js';
import {
  cutTruth,
  estimateOfAnalysis,
  estimateOfForm,
  readTruth,
  scoreTrack,
  type Estimate,
  type Scores,
  type Truth,
} from '../../src/evaluation/index.js';
import { findForm } from '../../src/form/index.js';
import { findGrid } from '../../src/rhythm/index.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { BarwiseError } from '../../src/units/index.js';
import { formJudgements, judgements, type Confidences, type SaidSpans } from './judgements.js';
import type { Job, Outcome } from './job.js';
import { factsOf } from './held-out/facts.js';
import { useWeights } from './held-out/weights.js';
import { whatIsWrong } from './held-out/wrong.js';
import { cachedFrontEnd, cutFrontEnd, cutPoint, readWav16 } from './song-front-ends.js';

type SongJob = Extract<Job, { kind: 'song' }>;

/** Analyses and scores one development song, whole or with its first seconds cut off. */
export async function scoreSong(job: SongJob): Promise<Outcome> {
  const json = JSON.parse(readFileSync(join(job.folder, 'truth', `${job.id}.json`), 'utf8')) as object;
  const whole = readTruth(json);
  const cut = job.cutSeed === null ? 0 : cutPoint(job.id, job.cutSeed, whole.duration);
  const truth = cut > 0 ? cutTruth(whole, cut) : whole;
  useWeights(job.weights ?? null);
  const before = process.cpuUsage();
  const listen = async () => (job.stages === 'all' ? await fromFile(job, cut) : fromFrontEnd(job, cut));
  const said = await listen().catch(refused);
  const used = process.cpuUsage(before);
  const estimates = {
    barwise: said.estimate,
    ...eightBars(said.estimate),
    ...(job.references ? await references(job, cut) : {}),
  };
  const scores = scoreAll(truth, estimates) as { readonly barwise: Scores };
  return {
    id: job.id,
    group: truth.group,
    maker: truth.maker,
    cut,
    scores,
    fromStart: scoreAll(truth, estimates, 0),
    facts: factsOf(whole, json),
    wrong: said.refusal ?? whatIsWrong(truth, said.estimate),
    judgements: [
      ...judgements(said.confidences, scores.barwise, truth),
      ...formJudgements(said.spans, scores.barwise, truth),
    ],
    irregularities: null,
    layers: null,
    note: said.note,
    seconds: (used.user + used.system) / 1e6,
    duration: truth.duration,
  };
}

/** What anybody knows of dance music: something happens every eight bars. On our bars, to be beaten by the sections. */
export function eightBars({ downbeats, sections }: Estimate): Record<string, Estimate> {
  if (!downbeats || !sections || downbeats.length < 2) return {};
  const starts = downbeats.filter((_, i) => i % 8 === 0);
  const end = downbeats[downbeats.length - 1];
  const spans = starts.map((start, i) => ({ start, end: starts[i + 1] ?? end, label: '' }));
  const said = { bpm: null, beats: null, downbeats: null, groupStarts: null, phraseStarts: null, sections: spans };
  return { 'every 8 bars': said };
}

function scoreAll(truth: Truth, estimates: Readonly<Record<string, Estimate>>, from?: number): Record<string, Scores> {
  const options = from === undefined ? {} : { from };
  return Object.fromEntries(Object.entries(estimates).map(([name, e]) => [name, scoreTrack(truth, e, options)]));
}

interface Said {
  readonly estimate: Estimate;
  readonly confidences: Confidences;
  readonly spans: SaidSpans | null;
  readonly note: string;
  /** Why nothing was said, as a code. */
  readonly refusal?: string;
}

/** A song that is refused has been given nothing right: it must not drop out of the figures. */
export function refused(error: unknown): Said {
  if (!(error instanceof BarwiseError)) throw error;
  return {
    estimate: { bpm: null, beats: [], downbeats: [], groupStarts: [], phraseStarts: [], sections: [] },
    confidences: { tempo: null, beatPhase: null, downbeat: null },
    spans: null,
    note: '',
    refusal: `refused: ${error.code}`,
  };
}

async function fromFile(job: SongJob, cut: number): Promise<Said> {
  const { analyseTrack } = await import('../../src/track/index.js');
  return withWav(job, cut, async (file) => {
    const a = await analyseTrack(file);
    return {
      estimate: estimateOfAnalysis(a),
      confidences: confidencesOf(a),
      spans: a,
      note: a.irregularities.map((i) => `${i.kind}@${i.bar}`).join(' '),
    };
  });
}

function fromFrontEnd(job: SongJob, cut: number): Said {
  const whole = cachedFrontEnd(job.folder, job.id, join(job.folder, 'front-ends'));
  const frontEnd = cut > 0 ? cutFrontEnd(whole, cut) : whole;
  const grid = findGrid(frontEnd);
  const form = job.stages === 'grid,form' ? findForm(frontEnd, grid) : null;
  return {
    estimate: estimateOfForm(grid, form),
    confidences: {
      tempo: grid.tempo.confidence,
      beatPhase: grid.beatPhase.confidence,
      downbeat: grid.downbeat.confidence,
    },
    spans: form,
    note: (form ?? grid).irregularities.map((i) => `${i.kind}@${i.bar}`).join(' '),
  };
}

export function confidencesOf(a: TrackAnalysis): Confidences {
  return { tempo: a.tempo.confidence, beatPhase: a.beatPhase.confidence, downbeat: a.downbeat.confidence };
}

/** What the reference libraries say, kept beside the songs because they take longer than ours. */
async function references(job: SongJob, cut: number): Promise<Record<string, Estimate>> {
  const folder = join(job.folder, 'references');
  mkdirSync(folder, { recursive: true });
  const cache = join(folder, `${job.id}.${cut.toFixed(2)}.json`);
  if (!existsSync(cache)) {
    const { referenceEstimates } = await import('./references.js');
    const estimates = await withWav(job, cut, (file, left, right) => referenceEstimates(file, left.map((l, i) => (l + right[i]) / 2))); // prettier-ignore
    writeFileSync(cache, JSON.stringify(estimates));
  }
  return JSON.parse(readFileSync(cache, 'utf8')) as Record<string, Estimate>;
}

/** The file itself, or a shorter copy that is gone afterwards. */
async function withWav<T>(
  job: SongJob,
  cut: number,
  use: (file: string, left: Float32Array, right: Float32Array) => Promise<T>,
): Promise<T> {
  const file = join(job.folder, 'audio', `${job.id}.wav`);
  const [left, right] = readWav16(file).map((c) => c.subarray(Math.round(cut * 44_100)));
  if (cut === 0) return use(file, left, right);
  const folder = mkdtempSync(join(tmpdir(), 'barwise-cut-'));
  try {
    const copy = join(folder, 'cut.wav');
    writeFileSync(copy, encodeWav([left, right], 44_100));
    return await use(copy, left, right);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
