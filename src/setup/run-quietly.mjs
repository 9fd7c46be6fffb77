import { spawn } from 'node:child_process';

const LAST_LINES = 40;
const EVERY_MS = 15_000;

/**
 * Runs a program and keeps what it prints to itself unless it fails: then the last lines are in the error.
 * While it runs, `say` gets a line now and then, so that nobody thinks it hangs.
 */
export function runQuietly(command, args, { cwd, what, say, shell = false }) {
  return new Promise((resolve, reject) => {
    const started = Date.now();
    const lines = [];
    const child = spawn(command, args, { cwd, shell, stdio: ['ignore', 'pipe', 'pipe'] });
    const keep = (chunk) => {
      lines.push(...String(chunk).split(/\r?\n/));
      lines.splice(0, Math.max(lines.length - LAST_LINES, 0));
    };
    child.stdout.on('data', keep);
    child.stderr.on('data', keep);
    const ticker = setInterval(() => say(`  … ${Math.round((Date.now() - started) / 1000)} s`), EVERY_MS);
    child.on('error', (error) => {
      clearInterval(ticker);
      reject(new Error(`${what} could not start: ${command} was not found (${error.message}).`));
    });
    child.on('close', (code) => {
      clearInterval(ticker);
      if (code === 0) resolve();
      else reject(new Error(`${what} failed; the last it said was:\n${lines.join('\n').trim()}`));
    });
  });
}

/** Runs a program in the foreground and gives its exit code (130 when it was interrupted). */
export function runInFront(command, args, { cwd }) {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, { cwd, stdio: 'inherit' });
    // The child gets the terminal's Ctrl-C itself and ends in its own way; we wait for it.
    const wait = () => undefined;
    process.on('SIGINT', wait);
    child.on('error', reject);
    child.on('close', (code, signal) => {
      process.off('SIGINT', wait);
      resolve(code ?? (signal === 'SIGINT' ? 130 : 1));
    });
  });
}
