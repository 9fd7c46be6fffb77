import { spawn, type ChildProcess } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { createServer } from 'node:net';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pages, ROOT } from '../../docs/pages.js';
import { CHROMIUM, launch, NO_CHROMIUM } from '../../player/browser/chromium.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Pages of the site: where each page of the documentation is found. */
const ADDRESSES = pages()
  .map(({ file }) => file)
  .filter((file) => file.startsWith('docs/') || !file.includes('/'))
  .map((file) =>
    file === 'README.md'
      ? '/'
      : `/${file.replace(/^docs\//, '').replace(/(?:index)?\.md$/, '')}`.replace('DEVELOPERS', 'developers'),
  );

describe.skipIf(!CHROMIUM)(`the site of the documentation${CHROMIUM ? '' : `: ${NO_CHROMIUM}`}`, () => {
  let server: ChildProcess;
  let browser: Browser;
  let origin: string;

  beforeAll(async () => {
    const port = await freePort();
    origin = `http://localhost:${port}`;
    server = spawn(process.execPath, [join(ROOT, 'docs/.vitepress/site.mjs'), 'serve'], {
      env: { ...process.env, PORT: String(port) },
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    await new Promise<void>((resolve, reject) => {
      server.stdout!.on('data', (text: Buffer) => text.includes('served at') && resolve());
      server.on('exit', (code) => reject(new Error(`the site was not served: ${code}`)));
    });
    browser = await launch();
  });

  afterAll(async () => {
    await browser?.close();
    server?.kill();
  });

  it('has every page, asks nobody else for anything, and finds nothing missing', async () => {
    const page = await browser.newPage();
    const [elsewhere, missing]: [string[], string[]] = [[], []];
    page.on('request', (request) => {
      if (!request.url().startsWith(origin) && !request.url().startsWith('data:')) elsewhere.push(request.url());
    });
    page.on('response', (response) => {
      if (response.status() >= 400) missing.push(response.url());
    });
    for (const address of ADDRESSES) {
      await page.goto(origin + address);
      expect(await page.locator('h1').count(), address).toBe(1);
    }
    expect([elsewhere, missing]).toEqual([[], []]);
    await page.close();
  });

  it('leads to the reference of the library', async () => {
    const page = await browser.newPage();
    await page.goto(origin);
    await page.locator('a', { hasText: 'The library' }).first().click();
    await page.getByText('analyseTrack').first().waitFor({ state: 'attached' });
    expect(new URL(page.url()).pathname).toContain('/api/');
    await page.close();
  });

  it.each([1280, 390])('fits a window of %i pixels', async (width) => {
    const page = await browser.newPage({ viewport: { width, height: 844 } });
    for (const address of ADDRESSES) {
      await page.goto(origin + address);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(over, address).toBeLessThanOrEqual(0);
    }
    await page.close();
  });

  it.each(['/', '/guide/working-dj', '/methods/beats'])('can be read by everybody: %s', async (address) => {
    const page = await browser.newPage();
    await page.goto(origin + address);
    await page.addScriptTag({ content: axe });
    expect(await violations(page)).toEqual([]);
    await page.close();
  });

  it('searches, and leads to what was found', async () => {
    const page = await browser.newPage();
    await page.goto(origin);
    await page.getByRole('button', { name: 'Search' }).first().click();
    await page.getByRole('searchbox').fill('ladder to fill in');
    const first = page.getByRole('listbox').getByRole('option').first();
    await first.waitFor();
    await page.keyboard.press('Enter');
    await page.waitForURL((url) => url.pathname !== '/');
    // The address changes before the page does.
    await page.locator('.vp-doc', { hasText: 'ladder to fill in' }).waitFor();
    await page.close();
  });
});

/** Rules of WCAG 2 A and AA that a page breaks, and where, as axe-core finds them in the text of the page. */
function violations(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    const { axe: checker } = window as unknown as {
      axe: { run(part: string, options: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const found = await checker.run('.vp-doc', { runOnly: ['wcag2a', 'wcag2aa'] });
    return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`);
  });
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });
}
