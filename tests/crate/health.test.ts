import { mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { cacheHealth, tidyCache } from '../../src/crate/index.js';
import { analysisIdentity } from '../../src/track/index.js';

let folder: string;
beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'barwise-health-'))));
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const put = (name: string, text: string) => writeFileSync(join(folder, name), text);
const analysis = (change: object = {}) => JSON.stringify({ analysis: { ...analysisIdentity(), ...change } });
const named = (letter: string, more = '') => `${letter.repeat(64)}${more}.json`;

it('tells the analyses of this version from what no run will read again, and deletes only that', async () => {
  put(named('a'), analysis());
  put(named('b', `.${'1'.repeat(16)}`), analysis({ correctionsDigest: '1'.repeat(16) }));
  put(named('c'), analysis({ version: '0.0.1' }));
  put(named('d'), analysis({ weightsId: 'others' }));
  put(named('e'), '{"analysis": {');
  put('.0123456789ab.tmp', 'half a');
  utimesSync(join(folder, '.0123456789ab.tmp'), 1, 1);
  put('.ba9876543210.tmp', 'being written');
  put('catalogue.json', '{}');
  put('somebody’s notes.json', '{}');
  const health = (await cacheHealth(folder))!;
  expect(health).toMatchObject({
    current: 2,
    outdated: { length: 2 },
    unreadable: { length: 1 },
    leftovers: { length: 1 },
  });
  expect(await tidyCache(health)).toBe(4);
  expect(readdirSync(folder).sort()).toEqual(
    [
      '.ba9876543210.tmp',
      named('a'),
      named('b', `.${'1'.repeat(16)}`),
      'catalogue.json',
      'somebody’s notes.json',
    ].sort(),
  );
});

it('finds nothing where there is no cache', async () => {
  expect(await cacheHealth(join(folder, 'none'))).toBeNull();
});
