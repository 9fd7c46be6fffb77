import { fork, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { jobName, type Job, type Reply } from './job.js';

/** The same suffix as this file: `.ts` under tsx, `.js` after the build. */
const script = fileURLToPath(new URL(`./worker${import.meta.url.endsWith('.ts') ? '.ts' : '.js'}`, import.meta.url));

/**
 * Runs jobs in child processes, one at a time in each; a child that dies costs its job only.
 *
 * @returns replies in the order of the jobs
 */
export async function runJobs(
  jobs: readonly Job[],
  processes: number,
  onReply: (reply: Reply, done: number) => void,
): Promise<Reply[]> {
  const replies: Reply[] = new Array<Reply>(jobs.length);
  let next = 0;
  let done = 0;

  async function lane(): Promise<void> {
    let child: ChildProcess | null = null;
    while (next < jobs.length) {
      const index = next++;
      child ??= fork(script, { stdio: ['ignore', 'inherit', 'inherit', 'ipc'], serialization: 'advanced' });
      const reply = await ask(child, jobs[index]);
      if (!child.connected || child.exitCode !== null) child = null;
      replies[index] = reply;
      onReply(reply, ++done);
    }
    child?.disconnect();
  }

  await Promise.all(Array.from({ length: Math.min(processes, jobs.length) }, lane));
  return replies;
}

function ask(child: ChildProcess, job: Job): Promise<Reply> {
  return new Promise((resolve) => {
    const settle = (reply: Reply) => {
      child.off('message', onMessage);
      child.off('exit', onExit);
      resolve(reply);
    };
    const onMessage = (reply: unknown) => settle(reply as Reply);
    const onExit = (code: number | null) =>
      settle({ ok: false, id: jobName(job), message: `the process ended with ${code ?? 'a signal'}` });
    child.on('message', onMessage);
    child.on('exit', onExit);
    child.send(job);
  });
}
