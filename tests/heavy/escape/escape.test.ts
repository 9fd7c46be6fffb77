import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse as parseYaml } from 'yaml';
import { CHROMIUM, launch, NO_CHROMIUM } from '../../player/browser/chromium.js';
import { writeBadCrate, writeHostileCrate, type HostileFile } from './crate.js';
import { printable } from '../../../src/units/index.js';
import { NAMES, STEERING, TEXTS } from './hostile.js';
import { badLines, filesUnder, formulas, pageTrouble, pdfTrouble, svgTrouble, textsOfMidi } from './readers.js';

const MAIN = resolve('dist/src/cli/main.js');
const folder = mkdtempSync(join(tmpdir(), 'barwise-escape-'));
const crate = join(folder, 'crate');
const out = join(folder, 'out');
let files: HostileFile[] = [];
let browser: Browser | undefined;

/** Runs a command in the folder of the crate; from a pipe, or as on a terminal. */
function barwise(args: readonly string[], terminal = false) {
  const quoted = [process.execPath, MAIN, ...args].map((a) => `'${a.replaceAll("'", `'\\''`)}'`).join(' ');
  const [command, argv] = terminal ? ['script', ['-qec', quoted, '/dev/null']] : [process.execPath, [MAIN, ...args]];
  const env = { ...process.env, XDG_DATA_HOME: join(folder, 'data') };
  const run = spawnSync(command, argv, { cwd: crate, encoding: 'utf8', maxBuffer: 2 ** 28, env });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

/** What is left of a terminal's text without what the program itself does: move in its line, clear it, bold and dim type. */
function withoutOwn(text: string): string {
  // eslint-disable-next-line no-control-regex
  return text.replaceAll('\r', '').replace(/\u001b([78]|\[(\?(25|7)[lh]|[0-9]*[GKAJ]|[0-9;]*m))/g, '');
}

const inOut = (name: string) => join(out, name);
const tagged = () => files.filter((f) => f.text !== null).map((f) => basename(f.file));
const steered = () => basename(files.find((f) => f.about === 'escape sequence')!.file);

beforeAll(async () => {
  files = await writeHostileCrate(crate);
  mkdirSync(out);
  browser = CHROMIUM ? await launch() : undefined;
  const { code, err } = barwise(['analyse', '.']);
  expect(code, err).toBe(0);
}, 300_000);
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe(`${Object.keys(TEXTS).length} hostile texts in the tags and ${NAMES.length} hostile names of a crate`, () => {
  const READ: readonly (readonly string[])[] = [
    ['analyse', '.'],
    ['explain', '.'],
    ['explain', '.', '--counts'],
    ['crate', '.'],
    ['order', '.'],
    ['doctor'],
  ];
  it.each(READ.map((args) => [args.join(' '), args] as const))('do not steer a terminal: barwise %s', (_, args) => {
    const run = barwise(args);
    expect(run.code, run.err).toBe(0);
    expect(badLines(run.out)).toEqual([]);
    expect(badLines(run.err)).toEqual([]);
  });

  it.skipIf(!existsSync('/usr/bin/script'))('do not steer a terminal that shows progress and bold type', () => {
    for (const args of [
      ['analyse', '.', '--no-cache'],
      ['crate', '.'],
      ['match', steered(), tagged()[0]],
    ]) {
      const run = barwise(args, true);
      expect(run.code, run.out.slice(-400)).toBe(0);
      expect(badLines(withoutOwn(run.out))).toEqual([]);
    }
  });

  it('do not steer a terminal that is told what failed', () => {
    const bad = join(folder, 'bad');
    writeBadCrate(bad);
    for (const terminal of [false, true]) {
      const run = barwise(['crate', bad], terminal);
      expect(run.code).toBe(3);
      const said = withoutOwn(run.out + run.err);
      expect(badLines(said)).toEqual([]);
      expect(said).toMatch(new RegExp(`${NAMES.length - 1} of ${NAMES.length - 1} could not be analysed`));
    }
  });

  it('do not run in a spreadsheet', () => {
    const tables = ['beats', 'bars', 'phrases', 'sections', 'events', 'irregularities', 'tracks'];
    const list = barwise(['crate', '.', '--csv']);
    expect(formulas(list.out)).toEqual([]);
    expect(badLines(list.out)).toEqual([]);
    let told = 0;
    for (const table of tables) {
      const run = barwise(['export', '.', '--format', 'csv', '--table', table, '--out', inOut(`${table}.csv`)]);
      if (run.code === 2) continue;
      told++;
      expect(run.code, run.err).toBe(0);
      const text = readFileSync(inOut(`${table}.csv`), 'utf8');
      expect(formulas(text)).toEqual([]);
      expect(badLines(text)).toEqual([]);
    }
    expect(told).toBeGreaterThan(3);
    const lines = barwise(['export', '.', '--format', 'jsonl', '--table', 'phrases']).out.trimEnd().split('\n');
    for (const line of lines) expect(() => JSON.parse(line) as unknown).not.toThrow();
  });

  it('stay what they are in JSON, and JSON stays JSON', () => {
    const { tracks } = JSON.parse(barwise(['analyse', '.', '--json']).out) as {
      tracks: { source: { file: string; tags: { title: string | null } } }[];
    };
    expect(tracks.length).toBeGreaterThan(tagged().length);
    for (const { text, file } of files.filter((f) => f.text?.startsWith('<script') === true)) {
      expect(tracks.find((t) => t.source.file === basename(file))!.source.tags.title).toBe(text);
    }
    for (const args of [
      ['crate', '.', '--json'],
      ['order', '.', '--json'],
      ['explain', '.', '--json'],
      ['match', steered(), tagged()[0], '--json'],
    ])
      expect(() => JSON.parse(barwise(args).out) as unknown, args.join(' ')).not.toThrow();
  });

  it('leave no file outside the folder that was named, and none under another name than the music’s', () => {
    const before = filesUnder(folder);
    const open = join(out, 'open');
    mkdirSync(open);
    for (const format of ['jams', 'midi']) {
      const run = barwise(['export', '.', '--format', format, '--out', open]);
      expect(run.code, run.err).toBe(0);
      expect(badLines(run.out)).toEqual([]);
      expect(run.out.trimEnd().split('\n')).toHaveLength(files.filter((f) => !basename(f.file).startsWith('.')).length);
    }
    const after = filesUnder(folder).filter((file) => !before.includes(file));
    expect(after.filter((file) => !file.startsWith('out/open/'))).toEqual([]);
    const plain = (file: string) => printable(basename(file).replace(/\.[^.]+$/, '')).trim();
    const stems = new Set(files.map((f) => plain(f.file)));
    for (const file of after) expect(stems).toContain(plain(file));
    for (const file of after) expect(file).not.toMatch(STEERING);
    for (const file of filesUnder(open).map((name) => join(open, name)))
      if (file.endsWith('.jams')) expect(() => JSON.parse(readFileSync(file, 'utf8')) as unknown).not.toThrow();
      else for (const text of textsOfMidi(readFileSync(file))) expect(text).not.toMatch(STEERING);
  });

  it('do not act in a PDF', { timeout: 240_000 }, async () => {
    const [a, b] = tagged();
    const pieces: readonly (readonly [string, readonly string[]])[] = [
      ['cards.pdf', ['cards', '.', '--index', 'name']],
      ['sheets.pdf', ['cards', '.', '--layout', 'A4', '--language', 'de']],
      ['lesson.pdf', ['lesson', a, steered()]],
      ['worksheet.pdf', ['worksheet', '.']],
      ['order.pdf', ['order', '.']],
      ['match.pdf', ['match', steered(), b]],
    ];
    for (const [name, args] of pieces) {
      const run = barwise([...args, '--out', inOut(name)]);
      expect(run.code, `${name}: ${run.err}`).toBe(0);
      expect(badLines(run.err)).toEqual([]);
      expect(await pdfTrouble(inOut(name)), name).toEqual([]);
    }
  });

  it('leave the file of corrections readable', () => {
    const some = files.filter((f, i) => f.text === null || i % 3 === 0).map((f) => basename(f.file));
    for (const file of some.filter((f) => !f.startsWith('.'))) {
      const run = barwise(['correct', `./${file}`, '--phrase', '0:20']);
      expect(run.code, run.err).toBe(0);
      expect(badLines(run.out)).toEqual([]);
    }
    const kept = filesUnder(join(folder, 'data')).filter((f) => f.endsWith('.yaml'));
    expect(kept.length).toBeGreaterThan(20);
    for (const file of kept) {
      const text = readFileSync(join(folder, 'data', file), 'utf8');
      expect(badLines(text)).toEqual([]);
      expect(Object.keys(parseYaml(text) as object)).not.toContain('__proto__');
    }
    for (const file of tagged().filter((f) => some.includes(f)))
      expect(barwise(['correct', file, '--undo']).code).toBe(0);
  });

  it('have run nothing', () => {
    expect(filesUnder(folder).filter((file) => basename(file) === 'broken')).toEqual([]);
    expect(existsSync('broken')).toBe(false);
  });
});

describe.skipIf(!CHROMIUM)(`in a browser${CHROMIUM ? '' : ` (${NO_CHROMIUM})`}`, () => {
  it('they do not act on the page that plays', { timeout: 120_000 }, async () => {
    const run = barwise(['show', '.', '--title', TEXTS['script'], '--out', inOut('page.html')]);
    expect(run.code, run.err).toBe(0);
    expect(await pageTrouble(browser!, inOut('page.html'))).toEqual([]);
  });

  it('they do not act in a diagram', { timeout: 240_000 }, async () => {
    for (const file of tagged()) {
      const run = barwise(['lesson', file, '--out', inOut(`${file}.svg`)]);
      expect(run.code, run.err).toBe(0);
      expect(await svgTrouble(browser!, inOut(`${file}.svg`)), file).toEqual([]);
    }
  });

  const IN_NOTEBOOKS = ['script', 'attribute', 'markdown', 'code in a template', 'code in quotes', 'escape sequence'];
  it.each(IN_NOTEBOOKS)(
    'they do not act in a notebook, its code or its page: %s',
    { timeout: 120_000 },
    async (about) => {
      const file = files.find((f) => f.about === about)!.file;
      await checkNotebook('inspect-track', [`track=${file}`]);
    },
  );

  it('names do not act in a notebook, its code or its page', { timeout: 120_000 }, async () => {
    const file = files.find((f) => basename(f.file).startsWith('quote '))!.file;
    await checkNotebook('inspect-track', [`track=${file}`]);
    await checkNotebook('survey-a-crate', [`crate=${crate}`]);
  });

  async function checkNotebook(name: string, parameters: readonly string[]): Promise<void> {
    const [ipynb, html] = [inOut(`${name}.ipynb`), inOut(`${name}.html`)];
    const given = parameters.flatMap((p) => ['-p', p]);
    const run = barwise(['notebook', name, ...given, '--out', ipynb, '--html', html]);
    expect(run.code, run.err).toBe(0);
    expect(badLines(run.err)).toEqual([]);
    const shipped = sources(`notebooks/${name}.ipynb`);
    const executed = sources(ipynb);
    // One cell has come in: the parameters.
    expect(executed.filter((source) => !shipped.includes(source))).toHaveLength(1);
    expect(await pageTrouble(browser!, html)).toEqual([]);
  }
});

function sources(file: string): string[] {
  const { cells } = JSON.parse(readFileSync(file, 'utf8')) as {
    cells: { cell_type: string; source: string | string[] }[];
  };
  return cells.filter((c) => c.cell_type === 'code').map((c) => [c.source].flat().join(''));
}
