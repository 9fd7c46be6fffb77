import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { encodeWav } from '../../../src/audio/index.js';
import { renderPage } from '../../../src/player/index.js';
import { CHROMIUM, launch, NO_CHROMIUM } from './chromium.js';
import { first } from './fixture.js';

describe.skipIf(!CHROMIUM)(`a page that holds an excerpt${CHROMIUM ? '' : ` (${NO_CHROMIUM})`}`, () => {
  let browser: Browser;
  let folder: string;
  beforeAll(async () => {
    browser = await launch();
    folder = mkdtempSync(join(tmpdir(), 'barwise-excerpt-'));
  });
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('counts the bars of the track and not of the excerpt, and stays inside it', async () => {
    const [, second, third] = first.phrases;
    const sound = encodeWav([new Float32Array(Math.round(8000 * (third.start - second.start)))], 8000);
    const audio = `data:audio/wav;base64,${Buffer.from(sound).toString('base64')}`;
    const excerpt = { from: second.start, to: third.start };
    writeFileSync(join(folder, 'page.html'), renderPage([{ analysis: first, audio, excerpt }]));
    const page = await browser.newPage();
    await page.goto(pathToFileURL(join(folder, 'page.html')).href);
    await page.waitForFunction(() => (document.getElementById('audio') as HTMLAudioElement).readyState >= 1);
    expect(await page.textContent('#where-bar')).toContain(`bar ${second.startBar}`);
    await page.keyboard.press('ArrowRight');
    expect(await page.textContent('#where-bar')).toContain(`bar ${second.startBar + 1}`);
    await page.keyboard.press('1');
    expect(await page.textContent('#where-bar')).toContain(`bar ${second.startBar}`);
    expect(await page.$eval('.crate', (e) => getComputedStyle(e).display)).toBe('none');
    await page.close();
  });
});
