// Runs with Node alone, before anything is installed: `node src/setup/run.mjs demo` or `… test`.
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { nodeComplaint } from './node-version.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

async function main([task, ...rest]) {
  const complaint = nodeComplaint(process.versions.node);
  if (complaint) return fail(complaint);
  if (task !== 'demo' && task !== 'test') return fail('Say what to run: node src/setup/run.mjs demo, or test.');
  const { ensureInstalled } = await import('./install.mjs');
  const { ensureBuilt } = await import('./build.mjs');
  const { runInFront } = await import('./run-quietly.mjs');
  await ensureInstalled(root, console.log);
  await ensureBuilt(root, console.log);
  const args =
    task === 'demo'
      ? [join(root, 'dist', 'src', 'cli', 'main.js'), 'demo']
      : [join(root, 'node_modules', 'vitest', 'vitest.mjs'), 'run', '--config', join('tests', 'vitest.config.ts')];
  if (!existsSync(args[0]))
    return fail(`${args[0]} is missing: delete the folders node_modules and dist, then run it again.`);
  return runInFront(process.execPath, [...args, ...rest], { cwd: root });
}

function fail(sentence) {
  console.error(sentence);
  return 1;
}

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  process.exitCode = fail(error.message);
}
