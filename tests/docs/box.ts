import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ROOT } from './pages.js';
import { commandsOf, type Sample } from './samples.js';

/** A folder in which samples run as a reader would run them after `npm run demo`: with a home of its own, and music. */
export interface Box {
  /** Runs a sample. @returns what a person would see, without what changes from run to run @throws when a command fails */
  run(sample: Sample): string;
  close(): void;
}

/** A reader's own music is the demo crate under other names. */
const MUSIC: Readonly<Record<string, string>> = {
  'track.flac': '02-pontoon-arithmetic.flac',
  'one.flac': '02-pontoon-arithmetic.flac',
  'two.flac': '06-fog-bell-rehearsal.flac',
  'track.mp3': '03-rope-locker-lights.mp3',
  'home/music/crate': '.',
};

/** Columns of the terminal that the samples see. */
const COLUMNS = 88;
const LONGEST_MS = 300_000;

/** Opens a box. @throws Error where the program is not built or the demo crate is not there */
export function openBox(): Box {
  const [program, crate] = [join(ROOT, 'dist/src/cli/main.js'), join(ROOT, 'demo/crate')];
  for (const needed of [program, crate])
    if (!existsSync(needed)) throw new Error(`${needed} is missing: run npm run demo first.`);
  const folder = mkdtempSync(join(tmpdir(), 'barwise-samples-'));
  for (const name of ['bin', 'home/music', 'node_modules']) mkdirSync(join(folder, name), { recursive: true });
  symlinkSync(join(ROOT, 'demo'), join(folder, 'demo'));
  symlinkSync(ROOT, join(folder, 'node_modules', 'barwise'));
  for (const [name, track] of Object.entries(MUSIC)) symlinkSync(join(crate, track), join(folder, name));
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }\n');
  const npx = join(folder, 'bin', 'npx');
  const tsx = join(ROOT, 'node_modules/tsx/dist/cli.mjs');
  writeFileSync(npx, npxFor({ barwise: program, tsx }));
  chmodSync(npx, 0o755);
  const env = {
    ...process.env,
    PATH: `${join(folder, 'bin')}:${process.env['PATH']}`,
    HOME: join(folder, 'home'),
    NO_COLOR: '1',
    LANG: 'C.UTF-8',
  };
  for (const name of ['BARWISE_CORRECTIONS', 'XDG_DATA_HOME', 'FORCE_COLOR', 'CI', 'VITEST', 'NODE_ENV'])
    Reflect.deleteProperty(env, name);
  let programs = 0;

  return {
    run(sample) {
      if (sample.language === 'sh') return commandsOf(sample).map(shell).map(steady).join('');
      const file = `sample-${++programs}.ts`;
      writeFileSync(join(folder, file), sample.code);
      return steady(shell(`npx tsx ${file}`));
    },
    close: () => rmSync(folder, { recursive: true, force: true }),
  };

  /** On a terminal of its own, because the program prints otherwise into a pipe; what is said to the person comes last. */
  function shell(command: string): string {
    const [script, said] = [join(folder, 'command.sh'), join(folder, 'said.txt')];
    writeFileSync(script, `set -e -o pipefail\nstty cols ${COLUMNS}\n{ ${command}\n} 2>${said}\n`);
    const options = { cwd: folder, env, encoding: 'utf8', timeout: LONGEST_MS } as const;
    try {
      const printed = execFileSync('script', ['-qec', `bash ${script}`, '/dev/null'], { ...options, stdio: 'pipe' });
      return printed.replaceAll('\r', '') + readFileSync(said, 'utf8');
    } catch (cause) {
      const told = existsSync(said) ? readFileSync(said, 'utf8') : '';
      throw new Error(`${command.trim()} failed: ${told}`, { cause });
    }
  }

  /** Without the folder, and with one date for all. */
  function steady(text: string): string {
    return text
      .replaceAll(join(folder, 'home'), '~')
      .replaceAll(`${folder}/`, '')
      .replace(/\d{4}-\d\d-\d\d \d\d:\d\d/g, '2026-11-25 14:05');
  }
}

/** `npx` for the programs of this checkout alone: nothing is fetched. */
function npxFor(programs: Readonly<Record<string, string>>): string {
  const cases = Object.entries(programs).map(
    ([name, path]) => `  ${name}) shift; exec '${process.execPath}' '${path}' "$@" ;;`,
  );
  return `#!/bin/sh\ncase "$1" in\n${cases.join('\n')}\nesac\necho "npx $1: not here" >&2\nexit 127\n`;
}
