// The documentation as a site with search: `npm run docs:site` builds it into docs/.vitepress/dist, `npm run docs:serve`
// builds and serves it. What it is built with is installed here, apart from the package, the first time it is wanted.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const HERE = dirname(fileURLToPath(import.meta.url));
const VITEPRESS = join(HERE, 'node_modules', 'vitepress', 'bin', 'vitepress.js');
const ROOT = join(HERE, '..', '..');
const TYPEDOC = join(ROOT, 'node_modules', 'typedoc', 'bin', 'typedoc');
const PORT = process.env['PORT'] ?? '4173';

/** Runs a program to its end; it ends with us. @throws Error when it fails */
function run(program, args, cwd) {
  const child = spawn(program, args, { cwd, stdio: 'inherit', shell: process.platform === 'win32' });
  const end = () => child.kill();
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, end);
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('exit', (code, signal) => {
      for (const name of ['SIGINT', 'SIGTERM']) process.off(name, end);
      if (code === 0 || signal !== null) resolve();
      else reject(new Error(`${[program, ...args].join(' ')} failed.`));
    });
  });
}

function vitepress(...args) {
  return run(process.execPath, [VITEPRESS, ...args], dirname(HERE));
}

/** The reference of the library beside the pages. Words that are missing are the business of the tests. */
function buildReference() {
  if (!existsSync(TYPEDOC)) throw new Error('The reference of the library needs the packages of the project: npm ci.');
  const lenient = ['--treatValidationWarningsAsErrors', 'false', '--logLevel', 'Error'];
  return run(process.execPath, [TYPEDOC, '--options', '.typedoc.json', '--out', join(HERE, 'dist', 'api'), ...lenient], ROOT);
}

const [task] = process.argv.slice(2);
try {
  if (task !== 'build' && task !== 'serve') throw new Error('Say build or serve.');
  if (!existsSync(VITEPRESS)) {
    console.log('Installing what the site is built with, once.');
    await run('npm', ['ci', '--no-audit', '--no-fund'], HERE);
  }
  await vitepress('build', '.');
  await buildReference();
  if (task === 'serve') {
    console.log(`Open http://localhost:${PORT}/ in a browser; Ctrl-C ends it.`);
    await vitepress('preview', '.', '--port', PORT);
  }
} catch (error) {
  console.error(error.message);
  process.exitCode = 1;
}
