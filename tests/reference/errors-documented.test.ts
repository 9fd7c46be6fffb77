import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { ERROR_CODES } from '../../src/units/index.js';

it('docs/errors.md has a line for every code and none besides', () => {
  const text = readFileSync(new URL('../../docs/errors.md', import.meta.url), 'utf8');
  const codes = [...text.matchAll(/^\| `([a-z-]+)` \|/gm)].map(([, code]) => code);
  expect(codes.toSorted()).toEqual([...ERROR_CODES].toSorted());
});
