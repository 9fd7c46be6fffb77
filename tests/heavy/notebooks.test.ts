import { existsSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runNotebook } from '../../src/notebook/index.js';
import { CHROMIUM, launch, NO_CHROMIUM } from '../player/browser/chromium.js';
import { watchPage } from '../player/browser/pages.js';

const NAMES = readdirSync('notebooks').map((file) => basename(file, '.ipynb'));
const hasDemo = existsSync('demo/crate/01-slack-water.wav');
/** Sound aside, a page is to travel by mail. */
const MOST_PAGE_BYTES = 3_000_000;
const MOST_SAVED_BYTES = 500_000;

describe.skipIf(!hasDemo)(
  `the notebooks of the package${hasDemo ? '' : ' (skipped: no demo crate; npm run demo)'}`,
  () => {
    const folder = mkdtempSync(join(tmpdir(), 'barwise-notebooks-'));
    let browser: Browser | undefined;
    beforeAll(async () => (browser = CHROMIUM ? await launch() : undefined));
    afterAll(async () => {
      await browser?.close();
      rmSync(folder, { recursive: true, force: true });
    });

    it.each(NAMES)('%s runs to its end on the demo crate, and is kept small', async (name) => {
      const html = join(folder, `${name}.html`);
      const run = { notebook: `notebooks/${name}.ipynb`, out: join(folder, `${name}.ipynb`), html };
      const { failure, ran, cells } = await runNotebook(run);
      expect(failure).toBeNull();
      expect(ran).toBe(cells);
      const sound = await soundBytes(html);
      expect(statSync(html).size - sound).toBeLessThan(MOST_PAGE_BYTES);
      expect(statSync(`notebooks/${name}.ipynb`).size).toBeLessThan(MOST_SAVED_BYTES);
    });

    describe.skipIf(!CHROMIUM)(`as pages${CHROMIUM ? '' : ` (${NO_CHROMIUM})`}`, () => {
      it.each(NAMES.flatMap((name) => [390, 1280, 1920].map((width) => [name, width] as const)))(
        '%s is readable at %i pixels and complains of nothing',
        async (name, width) => {
          const page = await browser!.newPage({ viewport: { width, height: 900 } });
          const trouble: string[] = [];
          watchPage(page, trouble, /^(file|data|blob|about):/);
          await page.goto(pathToFileURL(join(folder, `${name}.html`)).href);
          expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
          expect(await page.$eval('h1', (e) => e.textContent.trim())).not.toBe('');
          expect(trouble).toEqual([]);
          await page.close();
        },
      );
    });
  },
);

async function soundBytes(html: string): Promise<number> {
  const { readFile } = await import('node:fs/promises');
  const page = await readFile(html, 'utf8');
  return [...page.matchAll(/data:audio\/mpeg;base64,[A-Za-z0-9+/=]*/g)].reduce((sum, [data]) => sum + data.length, 0);
}
