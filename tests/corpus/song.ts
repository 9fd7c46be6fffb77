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
import { analyseTrack, type TrackAnalysis } from '../../src/track/index.js';
import type { Job, Judgement, Outcome } from './job.js';
import { referenceEstimates } from './references.js';
import { cachedFrontEnd, cutFrontEnd, cutPoint, readWav16 } from './song-front-ends.js';

type SongJob = Extract<Job, { kind: 'song' }>;

/** Analyses and scores one development song, whole or with its first seconds cut off. */
export async function scoreSong(job: SongJob): Promise<Outcome> {
  const whole = readTruth(JSON.parse(readFileSync(join(job.folder, 'truth', `${job.id}.json`), 'utf8')));
  const cut = job.cutSeed === null ? 0 : cutPoint(job.id, job.cutSeed, whole.duration);
  const truth = cut > 0 ? cutTruth(whole, cut) : whole;
  const before = process.cpuUsage();
  const said = job.stages === 'all' ? await fromFile(job, cut) : fromFrontEnd(job, cut);
  const used = process.cpuUsage(before);
  const ours = scoreTrack(truth, said.estimate);
  return {
    id: job.id,
    group: truth.group,
    maker: truth.maker,
    cut,
    scores: { barwise: ours, ...(job.references ? await references(job, cut, truth) : {}) },
    judgements: judgements(said.confidences, ours, truth),
    irregularities: null,
    layers: null,
    note: said.note,
    seconds: (used.user + used.system) / 1e6,
    duration: truth.duration,
  };
}

interface Said {
  readonly estimate: Estimate;
  readonly confidences: {
    readonly tempo: number | null;
    readonly beatPhase: number | null;
    readonly downbeat: number | null;
  };
  readonly note: string;
}

async function fromFile(job: SongJob, cut: number): Promise<Said> {
  return withWav(job, cut, async (file) => {
    const a = await analyseTrack(file);
    return {
      estimate: estimateOfAnalysis(a),
      confidences: confidencesOf(a),
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
    note: (form ?? grid).irregularities.map((i) => `${i.kind}@${i.bar}`).join(' '),
  };
}

export function confidencesOf(a: TrackAnalysis): Said['confidences'] {
  return { tempo: a.tempo.confidence, beatPhase: a.beatPhase.confidence, downbeat: a.downbeat.confidence };
}

/** F above which a phase counts as right: between it and the wrong phase lies nothing but broken grids. */
const RIGHT = 0.8;

/** Phases are only judged where what they rest on is right. */
export function judgements(c: Said['confidences'], scores: Scores, truth: Truth): Judgement[] {
  const all: Judgement[] = [];
  if (c.tempo !== null) all.push({ of: 'tempo', confidence: c.tempo, right: scores.tempo1 === 1 });
  if (c.beatPhase !== null && scores.tempo1 === 1)
    all.push({ of: 'beat phase', confidence: c.beatPhase, right: (scores.beatF ?? 0) > RIGHT });
  if (c.downbeat !== null && (scores.beatF ?? 0) > RIGHT && truth.downbeats.length > 0) {
    all.push({ of: 'downbeat', confidence: c.downbeat, right: (scores.downbeatF ?? 0) > RIGHT });
  }
  return all;
}

/** Scores of the reference libraries, kept beside the songs because they take longer than ours. */
async function references(job: SongJob, cut: number, truth: Truth): Promise<Record<string, Scores>> {
  const folder = join(job.folder, 'references');
  mkdirSync(folder, { recursive: true });
  const cache = join(folder, `${job.id}.${cut.toFixed(2)}.json`);
  if (!existsSync(cache)) {
    const estimates = await withWav(job, cut, (file, left, right) => referenceEstimates(file, left.map((l, i) => (l + right[i]) / 2))); // prettier-ignore
    writeFileSync(cache, JSON.stringify(estimates));
  }
  const estimates = JSON.parse(readFileSync(cache, 'utf8')) as Record<string, Estimate>;
  return Object.fromEntries(Object.entries(estimates).map(([name, e]) => [name, scoreTrack(truth, e)]));
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
