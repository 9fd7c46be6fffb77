import type { Hits, Scores } from '../../src/evaluation/index.js';
import type { FoldWeights } from './held-out/weights.js';

/** Which stages are run: the whole pipeline on the file, or the grid (and form) on the front end alone. */
export type Stages = 'all' | 'grid' | 'grid,form';

/** One track to analyse and score. */
export type Job =
  | {
      readonly kind: 'song';
      readonly folder: string;
      readonly id: string;
      /** Seeds the place where the start is cut off; null for the whole song. */
      readonly cutSeed: number | null;
      readonly stages: Stages;
      readonly references: boolean;
      /** Weights that have not seen the song, in place of the shipped ones. */
      readonly weights?: FoldWeights;
    }
  | { readonly kind: 'arrangement'; readonly seed: number }
  | { readonly kind: 'demo'; readonly index: number };

/** A judgement, how sure it was, and whether it was right. */
export interface Judgement {
  readonly of: 'tempo' | 'beat phase' | 'downbeat' | 'key' | 'phrase' | 'section';
  readonly confidence: number;
  readonly right: boolean;
}

/** What of its truth a song can be judged by. */
export interface SongFacts {
  /** Its beats lie on one straight line: made to a clock. */
  readonly steady: boolean;
  /** The onsets of the recording were found to lie where the notes are, in both halves. */
  readonly verified: boolean;
  readonly sections: number;
}

/** What came of it. */
export interface Outcome {
  readonly id: string;
  readonly group: string;
  readonly maker: string;
  /** Seconds cut off at the start. */
  readonly cut: number;
  /** Scores by who said it: `barwise` and the references. */
  readonly scores: Readonly<Record<string, Scores>>;
  /** The same, judged from the first second on and not from the fifth. */
  readonly fromStart?: Readonly<Record<string, Scores>>;
  readonly facts?: SongFacts;
  /** What of the grid is wrong, in words. */
  readonly wrong?: string;
  readonly judgements: readonly Judgement[];
  readonly irregularities: Hits | null;
  readonly layers: Hits | null;
  /** Kinds and bars of planted and of reported irregularities, to read. */
  readonly note: string;
  /** Processor time of our analysis in seconds, and the length of the track. */
  readonly seconds: number;
  readonly duration: number;
}

export type Reply =
  | { readonly ok: true; readonly outcome: Outcome }
  | { readonly ok: false; readonly id: string; readonly message: string };

/** A name for messages and files. */
export function jobName(job: Job): string {
  if (job.kind === 'song') return job.cutSeed === null ? job.id : `${job.id} (cut ${job.cutSeed})`;
  return job.kind === 'demo' ? `demo ${job.index + 1}` : `seed ${job.seed}`;
}
