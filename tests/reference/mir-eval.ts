import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * Reference data from outside (mir_eval's own test fixtures and expected scores) is not part of the project. It is
 * looked for in the folder BARWISE_REFERENCE names, else beside the checkout; tests that need it are skipped without it.
 */
const root = process.env.BARWISE_REFERENCE ?? fileURLToPath(new URL('../../../shared/reference', import.meta.url));
export const fixturesFound = existsSync(join(root, 'mir_eval'));
export const skipNote = fixturesFound ? '' : ' (skipped: set BARWISE_REFERENCE to a folder that holds mir_eval/)';

/** Numbers and labels of a fixture, line by line, comments left out. */
export function rows(task: string, name: string): string[][] {
  return readFileSync(join(root, 'mir_eval', task, name), 'utf8')
    .split('\n')
    .filter((line) => line.trim() !== '' && !line.startsWith('#'))
    .map((line) => line.trim().split(/[\t ]+/));
}

export function expected(task: string, number: string): Record<string, number> {
  return JSON.parse(readFileSync(join(root, 'mir_eval', task, `output${number}.json`), 'utf8')) as Record<
    string,
    number
  >;
}

export const NUMBERS = ['00', '01', '02', '03', '04', '05', '06', '07', '08', '09'];
