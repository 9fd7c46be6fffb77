import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import type { CardOptions } from '../../reports/index.js';
import { VARIANTS } from '../ladder/variants.js';

/** Needs the program to be built. */
const CHILD = 'tests/heavy/many-cards-child.mjs';
const folder = mkdtempSync(join(tmpdir(), 'barwise-many-cards-'));
const tracks = join(folder, 'tracks.json');
writeFileSync(tracks, JSON.stringify(Object.values(VARIANTS).map((make) => make())));
afterAll(() => rmSync(folder, { recursive: true }));

function print(count: number, options: CardOptions) {
  const target = join(folder, 'cards.pdf');
  const args = [CHILD, tracks, target, `${count}`, JSON.stringify(options)];
  const told = execFileSync(process.execPath, args, { encoding: 'utf8' });
  const result = JSON.parse(told) as { readonly pages: number; readonly seconds: number; readonly megabytes: number };
  return { ...result, fileMegabytes: statSync(target).size / 1e6 };
}

const JOBS: readonly CardOptions[] = [{}, { sheet: 'A4', index: 'tempo' }];

describe.each(JOBS)('500 cards of every kind (%o)', (options) => {
  test('take less than 400 MB, and a file of less than 15 MB; each costs less than the first ones', () => {
    const few = print(20, options);
    const many = print(500, options);
    expect(many.pages).toBeGreaterThan(few.pages * 10);
    expect(many.megabytes).toBeLessThan(400);
    expect(many.fileMegabytes).toBeLessThan(15);
    expect(many.seconds / 500).toBeLessThan(few.seconds / 20);
  });
});
