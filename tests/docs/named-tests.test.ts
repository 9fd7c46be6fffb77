import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

describe.each(['docs/security.md', 'docs/reliability.md'])('%s', (page) => {
  it('names tests that are there', () => {
    const named = [...readFileSync(page, 'utf8').matchAll(/`(tests\/[\w/.-]+)`/g)].map((found) => found[1]);
    expect(named.length).toBeGreaterThan(5);
    expect(named.filter((file) => !existsSync(file))).toEqual([]);
  });
});

it('every line of what somebody might try has a test beside it, or says where it is argued', () => {
  const rows = readFileSync('docs/security.md', 'utf8').split('## What could happen')[1].split('\n## ')[0].split('\n');
  const claims = rows.filter((row) => row.startsWith('| ')).slice(2);
  expect(claims.length).toBeGreaterThan(9);
  for (const claim of claims) expect(claim).toMatch(/`tests\/|see below/);
});
