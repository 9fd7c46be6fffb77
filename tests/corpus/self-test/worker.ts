import { judge, type Task } from './judge.js';

// A child process of pool.ts: takes a task, answers with its verdict or with what went wrong.
process.on('message', (task: Task) => {
  try {
    process.send?.(judge(task));
  } catch (error) {
    process.send?.({ failed: `${task.set} ${task.seed}: ${error instanceof Error ? error.message : String(error)}` });
  }
});
