import { fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import type { Task, Verdict } from './judge.js';

const script = fileURLToPath(new URL(`./worker${import.meta.url.endsWith('.ts') ? '.ts' : '.js'}`, import.meta.url));

/** Judges tracks in child processes. @returns verdicts in the order of the tasks, and what failed, in words */
export async function judgeAll(
  tasks: readonly Task[],
  processes: number,
  onDone: (done: number) => void = () => {},
): Promise<{ verdicts: Verdict[]; failed: string[] }> {
  const slots: (Verdict | undefined)[] = new Array<undefined>(tasks.length).fill(undefined);
  const failed: string[] = [];
  let next = 0;
  let done = 0;
  const lane = async () => {
    const child = fork(script, { serialization: 'advanced' });
    const ended = once(child, 'exit').then(() => [{ failed: 'a process ended' }]);
    while (next < tasks.length && child.connected) {
      const index = next++;
      child.send(tasks[index]);
      const [reply] = (await Promise.race([once(child, 'message'), ended])) as [Verdict | { failed: string }];
      if ('failed' in reply) failed.push(reply.failed);
      else slots[index] = reply;
      onDone(++done);
    }
    if (child.connected) child.disconnect();
  };
  await Promise.all(Array.from({ length: Math.min(processes, tasks.length) }, lane));
  return { verdicts: slots.filter((v) => v !== undefined), failed };
}
