import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { printTransitions } from '../../reports/index.js';
import { matchTracks } from '../../src/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';
import { readPdf } from './read-pdf.js';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'barwise-sheet-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const a = sampleAnalysis(undefined, { title: 'Slack Water', bpm: 124 });
const b = sampleAnalysis(undefined, { title: 'Night Ferry', bpm: 126 });
const match = matchTracks(a, b);

async function printed(language: 'en' | 'de'): Promise<{ text: string; pages: number; bytes: Buffer }> {
  const file = join(folder, `${language}.pdf`);
  const sheets = match.plans.map((plan) => ({ a, b, match, plan }));
  const { pages } = await printTransitions(sheets, file, { language });
  const bytes = await readFile(file);
  const { text } = await readPdf(bytes.subarray());
  return { text, pages, bytes: await readFile(file) };
}

describe('a transition sheet', () => {
  it('says where to start, names both tracks, and has a page for each plan', async () => {
    const { text, pages } = await printed('en');
    expect(pages).toBe(match.plans.length);
    for (const word of ['Slack Water', 'Night Ferry', 'start B', 'Why', 'Mind']) expect(text).toContain(word);
    for (const { start } of match.plans) expect(text).toContain(`A ${start.a.bar}`);
  });

  it('speaks German', async () => {
    expect((await printed('de')).text).toContain('B starten');
  });

  it('is the same bytes for the same plans, and refuses none', async () => {
    const again = join(folder, 'again.pdf');
    const first = await printed('en');
    await printTransitions(
      match.plans.map((plan) => ({ a, b, match, plan })),
      again,
    );
    expect((await readFile(again)).equals(first.bytes)).toBe(true);
    await expect(printTransitions([], again)).rejects.toMatchObject({ code: 'bad-option' });
  });
});
