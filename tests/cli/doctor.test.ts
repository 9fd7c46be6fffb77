import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { Finding } from '../../src/cli/doctor/finding.js';
import { atLeast } from '../../src/cli/doctor/machine.js';
import { barwise } from './support.js';

it('finds this checkout in order', async () => {
  const { code, out } = await barwise(['doctor', '--json']);
  const findings = JSON.parse(out) as Finding[];
  expect(code).toBe(0);
  expect(findings.filter((f) => f.state === 'ill')).toEqual([]);
  const about = findings.map((f) => f.about);
  for (const part of ['Node', 'portable decoders', 'key finder', 'printed pieces', 'charts', 'notebooks', 'Jupyter'])
    expect(about).toContain(part);
});

it('says in words what it found, a line each, and what to do under it', async () => {
  const { out } = await barwise(['doctor']);
  for (const line of out.trimEnd().split('\n')) expect(line).toMatch(/^(ok|note|TROUBLE) +\S|^ +→ \S/);
});

it('breaks no line of a terminal within a word, and puts a long name above what was found', async () => {
  const root = mkdtempSync(join(tmpdir(), 'barwise-doctor-with-a-long-name-'));
  writeFileSync(join(root, 'a.wav'), '');
  const { out } = await barwise(['doctor', root], { columns: 60 });
  rmSync(root, { recursive: true });
  const lines = out.trimEnd().split('\n');
  expect(lines.filter((line) => line.length > 60 && line.trim().includes(' ') && !line.includes(root))).toEqual([]);
  const name = lines.findIndex((line) => line === `ok       ${join(root, '.barwise')}`);
  expect(lines[name + 1]).toMatch(/^ {20,}no cache yet$/);
});

it('calls a folder ill that is not there', async () => {
  const root = mkdtempSync(join(tmpdir(), 'barwise-doctor-test-'));
  const { code, out } = await barwise(['doctor', join(root, 'gone')]);
  rmSync(root, { recursive: true });
  expect(code).toBe(3);
  expect(out).toMatch(/TROUBLE .*gone/);
});

it('compares versions by numbers', () => {
  expect(atLeast('20.20.2', '20.19')).toBe(true);
  expect(atLeast('20.9.0', '20.19')).toBe(false);
  expect(atLeast('22.0.0', '20.19')).toBe(true);
  expect(atLeast('20.19', '20.19.0')).toBe(true);
});
