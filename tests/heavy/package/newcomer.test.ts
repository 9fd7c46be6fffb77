import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clubWav } from '../../cli/support.js';
import { asHere, install, newProject, pack, PROJECT, put, type Packed } from './packed.js';

/** What somebody who has just found the package would write. */
const TEN_LINES = `import { writeFile } from 'node:fs/promises';
import { analyseTrack, type TrackAnalysis } from 'barwise';
import { layersChart, toSvg } from 'barwise/charts';

const track: TrackAnalysis = await analyseTrack('track.wav');
const phrases: number[] = track.phrases.map((phrase) => phrase.bars);
console.log(\`\${track.tempo.bpm.toFixed(1)} BPM, phrases of \${phrases.join(', ')} bars\`);

const svg: string = await toSvg(layersChart(track));
await writeFile('layers.svg', svg);
`;

const WITH = {
  NodeNext: { module: 'NodeNext', moduleResolution: 'NodeNext' },
  bundler: { module: 'ESNext', moduleResolution: 'bundler' },
} as const;

const DOORS = ['barwise', 'barwise/charts', 'barwise/practice', 'barwise/reports', 'barwise/notebook'];

let folder: string;
let packed: Packed;
beforeAll(() => {
  const root = mkdtempSync(join(tmpdir(), 'newcomer-'));
  folder = join(root, 'first-steps');
  packed = pack(root);
  newProject(folder, packed.file);
  put(folder, { 'track.wav': clubWav(), 'track.ts': TEN_LINES });
});
afterAll(() => rmSync(join(folder, '..'), { recursive: true, force: true }));

const node = (...args: string[]) => spawnSync(process.execPath, args, { cwd: folder, encoding: 'utf8' });

describe('a new project with the packed package and nothing else', () => {
  it.each(DOORS)('loads %s', (door) => {
    const run = node('--input-type=module', '-e', `console.log(Object.keys(await import('${door}')).length > 0)`);
    expect([run.stderr, run.stdout.trim()]).toEqual(['', 'true']);
  });

  it('has none of the packages that only drawing, printing and notebooks need', () => {
    for (const name of ['vega', 'vega-lite', 'fontkit', 'pdfkit', 'tslab', 'markdown-it', 'playwright-core'])
      expect([name, existsSync(join(folder, 'node_modules', name))]).toEqual([name, false]);
  });

  it('analyses, by the library and by the command', () => {
    const run = node('--input-type=module', '-e', `
      import { analyseTrack } from 'barwise';
      console.log((await analyseTrack('track.wav')).tempo.bpm.toFixed(1));`); // prettier-ignore
    expect([run.stderr, run.stdout]).toEqual(['', '120.0\n']);
    const command = spawnSync('npx', ['--no-install', 'barwise', 'analyse', 'track.wav', '--no-cache', '--json'], {
      cwd: folder,
      encoding: 'utf8',
    });
    expect(command.status, command.stderr).toBe(0);
    expect((JSON.parse(command.stdout) as { tempo: { bpm: number } }).tempo.bpm).toBeCloseTo(120, 1);
  });

  it('is told in one sentence which package a chart needs', () => {
    const run = node('--input-type=module', '-e', `
      import { analyseTrack } from 'barwise';
      import { layersChart, toSvg } from 'barwise/charts';
      try { await toSvg(layersChart(await analyseTrack('track.wav'))); } catch (e) { console.log(e.code, e.message); }`); // prettier-ignore
    expect(run.stdout).toMatch(/^missing-package Drawing a chart needs the package \S+: run `npm install \S+`\.\n$/);
  });
});

describe('ten lines of TypeScript', () => {
  beforeAll(() => install(folder, ...['vega', 'vega-lite', 'fontkit', 'typescript', '@types/node'].map(asHere)));

  it.each(['NodeNext', 'bundler'] as const)('pass the compiler at its strictest under %s, and run', (resolution) => {
    const compilerOptions = {
      ...WITH[resolution],
      target: 'ES2022',
      types: ['node'],
      strict: true,
      exactOptionalPropertyTypes: true,
      noUncheckedIndexedAccess: true,
      outDir: resolution,
    };
    put(folder, { 'tsconfig.json': JSON.stringify({ compilerOptions, files: ['track.ts'] }) });
    const compiled = node('node_modules/typescript/bin/tsc', '-p', '.');
    expect([compiled.status, compiled.stdout]).toEqual([0, '']);
    rmSync(join(folder, 'layers.svg'), { force: true });
    const run = node(join(resolution, 'track.js'));
    expect([run.stderr, run.stdout]).toEqual([
      '',
      expect.stringMatching(/^120\.0 BPM, phrases of (\d+, )*\d+ bars\n$/),
    ]);
    const svg = readFileSync(join(folder, 'layers.svg'), 'utf8');
    expect(svg).toMatch(/^<svg [^]*<path [^]*<\/svg>\s*$/);
    expect(svg).toContain('kick');
  });
});

describe('the package', () => {
  it('holds the program, its types, the notebooks, the licence, and nothing that only we need', () => {
    const paths = packed.files.map((f) => f.path);
    for (const name of [
      'package.json',
      'README.md',
      'LICENSE',
      'dist/src/index.js',
      'dist/src/index.d.ts',
      'dist/man/barwise.1',
      'docs/schema/analysis.v2.json',
    ])
      expect(paths).toContain(name);
    expect(paths.filter((p) => /(^|\/)tests?\/|\.test\.|\.map$|\.ts$|^src\/|^docs\/(?!schema\/)|setup\//.test(p) && !p.endsWith('.d.ts'))).toEqual([]); // prettier-ignore
  });

  it('gives its schemas to those who ask for them by name', () => {
    const run = node('--input-type=module', '-e', `
      import schema from 'barwise/schema/theme.v1.json' with { type: 'json' };
      console.log(schema.title);`); // prettier-ignore
    expect(run.stdout).toBe('Barwise theme, version 1\n');
  });

  it('is small: 1.25 MB to fetch at most, and no file over a megabyte', () => {
    expect(packed.size).toBeLessThan(1_250_000);
    expect(packed.files.filter((f) => f.size > 2 ** 20)).toEqual([]);
    expect(statSync(packed.file).size).toBe(packed.size);
  });

  it.each([
    ['publint', ['run', '--strict'], 'All good!'],
    ['attw', ['--profile', 'esm-only', '--no-color', '--no-emoji'], 'barwise'],
  ])('passes %s', (tool, args, says) => {
    const run = spawnSync(join(PROJECT, 'node_modules', '.bin', tool), [args[0] === 'run' ? 'run' : packed.file, ...(args[0] === 'run' ? [packed.file, ...args.slice(1)] : args)], { encoding: 'utf8' }); // prettier-ignore
    expect(run.status, run.stdout + run.stderr).toBe(0);
    expect(run.stdout).toContain(says);
  });
});
