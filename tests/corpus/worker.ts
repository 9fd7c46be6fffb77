import { jobName, type Job, type Reply } from './job.js';
import { scoreSong } from './song.js';

// A child process of pool.ts: takes a job, answers with its outcome.
process.on('message', (job: Job) => {
  const work =
    job.kind === 'song' ? scoreSong(job) : import('./synthetic.js').then(({ scoreSynthetic }) => scoreSynthetic(job));
  work
    .then((outcome): Reply => ({ ok: true, outcome }))
    .catch((error: unknown): Reply => ({
      ok: false,
      id: jobName(job),
      message: error instanceof Error ? error.message : String(error),
    }))
    .then((reply) => process.send?.(reply))
    .catch(() => process.disconnect());
});
