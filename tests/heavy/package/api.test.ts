import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PROJECT } from './packed.js';

/** What TypeDoc has found: a symbol with its comment and what is in it. */
interface Reflection {
  readonly name: string;
  readonly kind: number;
  /** TypeDoc makes a flag of `@public`, and leaves other marks where they are. */
  readonly flags?: { readonly isPublic?: boolean };
  readonly comment?: { readonly modifierTags?: readonly string[] };
  readonly signatures?: readonly Reflection[];
  readonly children?: readonly Reflection[];
}

/** Kinds of TypeDoc: modules and namespaces are doors, references stand for something else; the rest is offered. */
const DOORS = new Set([1, 2, 4]);
const REFERENCE = 4_194_304;

let folder: string;
let said: string;
let code: number | null;
let offered: { readonly name: string; readonly tags: readonly string[] }[];
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'barwise-api-'));
  const json = join(folder, 'api.json');
  const run = spawnSync('npx', ['--no-install', 'typedoc', '--options', '.typedoc.json', '--json', json], { cwd: PROJECT, encoding: 'utf8' }); // prettier-ignore
  said = run.stdout + run.stderr;
  code = run.status;
  offered = everything(JSON.parse(readFileSync(json, 'utf8')) as Reflection, '');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function everything(reflection: Reflection, path: string): typeof offered {
  const { name, kind, signatures, children } = reflection;
  const full = path === '' ? name : `${path}.${name}`;
  if (DOORS.has(kind)) return (children ?? []).flatMap((child) => everything(child, full));
  if (kind === REFERENCE) return [];
  const own = [reflection, ...(signatures ?? [])];
  const stable = own.some((r) => r.flags?.isPublic === true) ? ['@public'] : [];
  return [{ name: full, tags: [...stable, ...own.flatMap((r) => r.comment?.modifierTags ?? [])] }];
}

describe('the public API', () => {
  it('is documented: TypeDoc finds no symbol without words, and no link that leads nowhere', () => {
    expect(said).not.toMatch(/warning|error(?!s)/i);
    expect(code).toBe(0);
  });

  it('is marked, every symbol of it, as stable or experimental and not as both', () => {
    expect(offered.length).toBeGreaterThan(300);
    const unmarked = offered.filter(({ tags }) => tags.includes('@public') === tags.includes('@experimental'));
    expect(unmarked.map(({ name }) => name)).toEqual([]);
  });

  it('is stable where files and the main job depend on it', () => {
    const stable = new Set(
      offered.filter(({ tags }) => tags.includes('@public')).map(({ name }) => name.split('.').at(-1)),
    );
    for (const name of [
      'analyseTrack',
      'TrackAnalysis',
      'parseTrackAnalysis',
      'correctTrack',
      'Correction',
      'matchTracks',
      'toJams',
      'toMidi',
      'toRows',
      'BarwiseError',
      'layersChart',
      'toSvg',
      'printCards',
      'analyseCrate',
    ])
      // prettier-ignore
      expect([name, stable.has(name)]).toEqual([name, true]);
  });
});
