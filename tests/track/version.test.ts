import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { ANALYSIS_VERSION, VERSION } from '../../src/track/version.js';

interface Versions {
  readonly ANALYSIS_VERSION: string;
  readonly VERSION: string;
}

const root = new URL('../../', import.meta.url);

describe('the version an analysis is kept under', () => {
  it('is the package alone where the sources run uncompiled', () => {
    expect(ANALYSIS_VERSION).toBe(VERSION);
  });

  // Semantic Versioning 2.0.0, section 10: build metadata after a plus, of [0-9A-Za-z-].
  it('carries the state of the analysis where it was built, so that nothing kept by older code passes for current', async () => {
    const built = (await import(new URL('dist/src/track/version.js', root).href)) as Versions;
    expect(built.ANALYSIS_VERSION).toMatch(/^\d+\.\d+\.\d+\+[0-9a-f]{12}$/);
    expect(built.VERSION).toBe(VERSION);
  });

  it('counts every folder the analysis may import from', () => {
    const rules = createRequire(import.meta.url)('../../.dependency-cruiser.cjs') as {
      forbidden: { comment?: string }[];
    };
    const ofTrack = rules.forbidden.find(({ comment }) => comment?.startsWith('src/track may'));
    const folders = ofTrack!.comment!.split(': ')[1].split(', ');
    const build = readFileSync(new URL('src/setup/build.mjs', root), 'utf8');
    const counted = /const ANALYSIS = \[(.*)\]/
      .exec(build)![1]
      .split(', ')
      .map((quoted) => quoted.slice(1, -1));
    expect(new Set(counted)).toEqual(new Set([...folders, 'track']));
  });
});
