#!/usr/bin/env node
import { keepCompiledCode } from './compiled-code.js';
import { EXIT } from './exit-codes.js';
import { run } from './run.js';

keepCompiledCode();
const controller = new AbortController();

process.on('SIGINT', () => {
  // The first Ctrl-C ends the work in good order, the second at once.
  // eslint-disable-next-line no-restricted-properties
  if (controller.signal.aborted) process.exit(EXIT.interrupted);
  controller.abort();
});
process.on('SIGTERM', () => controller.abort());

// Whoever reads our output may stop reading (`| head`): that is no error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // eslint-disable-next-line no-restricted-properties
  if (error.code === 'EPIPE') process.exit(EXIT.done);
  throw error;
});
process.stderr.on('error', () => undefined);

const { stdout, stderr, env } = process;
process.exitCode = await run(process.argv.slice(2), { stdout, stderr, env, signal: controller.signal });
