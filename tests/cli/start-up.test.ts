import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { clubWav } from './support.js';

const main = fileURLToPath(new URL('../../dist/src/cli/main.js', import.meta.url));
/** What is dear to load, and is not wanted for telling the version or the commands. */
const HEAVY = /node_modules\/.*(essentia|pffft|tslab|vega|node-web-audio-api|pdfkit|typescript)|\.wasm/;

/** Prints every module that was asked for, by a loader hook. */
const HOOK = `
import { register } from 'node:module';
register('data:text/javascript,' + encodeURIComponent(
  "import { writeSync } from 'node:fs'; export async function load(url, context, next) { writeSync(2, url + '\\\\n'); return next(url, context); }",
));`;

function modulesOf(...args: string[]): string[] {
  const script = `data:text/javascript,${encodeURIComponent(HOOK)}`;
  const command = `"${process.execPath}" --import "${script}" "${main}" ${args.join(' ')} 2>&1 >/dev/null`;
  const output = execFileSync('sh', ['-c', command], { encoding: 'utf8' });
  return output.split('\n').filter((line) => line.startsWith('file:'));
}

describe.skipIf(!existsSync(main))('starting the built program (skipped without a build)', () => {
  it('loads nothing heavy for the list of a crate that is known', () => {
    const folder = mkdtempSync(join(tmpdir(), 'barwise-known-'));
    try {
      writeFileSync(join(folder, 'a.wav'), clubWav());
      const list = `crate '${folder}' --no-corrections`;
      expect(modulesOf(list).some((url) => HEAVY.test(url))).toBe(true);
      expect(modulesOf(list).filter((url) => HEAVY.test(url))).toEqual([]);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it.each([['--version'], ['--help'], ['cards --help']])('loads nothing heavy for %s', (args) => {
    const modules = modulesOf(args);
    expect(modules.length).toBeGreaterThan(5);
    expect(modules.filter((url) => HEAVY.test(url))).toEqual([]);
    expect(modules.filter((url) => /\/dist\/src\/(signal|rhythm|form|practice|charts|notebook)\//.test(url))).toEqual(
      [],
    );
  });
});
