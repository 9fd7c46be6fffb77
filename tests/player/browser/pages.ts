import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect } from 'vitest';
import { launch } from './chromium.js';

/** Puts into `trouble` what a page complains of, and whatever it asks for that `allowed` does not name. */
export function watchPage(page: Page, trouble: string[], allowed: RegExp): void {
  page.on('console', (m) => m.type() === 'error' && trouble.push(m.text()));
  page.on('pageerror', (error) => trouble.push(error.message));
  page.on('request', (r) => allowed.test(r.url()) || trouble.push(`asked for ${r.url()}`));
}

/** Pages of a folder in a browser. Whatever goes wrong in one makes the test fail that was using it. */
export interface Pages {
  /** Opens a file of the folder afresh. @param script is run in it before its own */
  readonly open: (file: string, options: Parameters<Browser['newPage']>[0], script?: () => void) => Promise<Page>;
  readonly page: () => Page;
  readonly trouble: string[];
}

/**
 * Makes the folder and the browser for the tests around it.
 * @param allowed addresses that a page may ask for
 */
export function usePages(prefix: string, allowed: RegExp, write: (folder: string) => void | Promise<void>): Pages {
  let folder = '';
  let browser: Browser;
  let page: Page;
  const trouble: string[] = [];

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), prefix));
    await write(folder);
    browser = await launch();
  });
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });
  afterEach(async () => {
    await page.close();
    expect(trouble.splice(0)).toEqual([]);
  });

  return {
    trouble,
    page: () => page,
    async open(file, options, script) {
      page = await browser.newPage(options);
      watchPage(page, trouble, allowed);
      if (script) await page.addInitScript(script);
      await page.goto(pathToFileURL(join(folder, file)).href);
      return page;
    },
  };
}
