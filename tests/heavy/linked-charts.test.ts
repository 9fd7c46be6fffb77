import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { linkedCharts } from '../../src/charts/index.js';
import { shortTrack } from '../charts/charts.js';
import { CHROMIUM, launch, NO_CHROMIUM } from '../player/browser/chromium.js';

/** What a front end does that runs vega. */
const FRONT_END = `
import * as vega from 'vega';
import { compile } from 'vega-lite';
window.draw = (spec) =>
  new vega.View(vega.parse(compile(spec).spec), { renderer: 'svg', container: '#chart', hover: true }).runAsync().then(() => undefined);`;

describe.skipIf(!CHROMIUM)(`linked charts where vega runs${CHROMIUM ? '' : ` (${NO_CHROMIUM})`}`, () => {
  const folder = mkdtempSync(join(tmpdir(), 'barwise-linked-'));
  let [browser, page]: [Browser, Page] = [] as never;
  const trouble: string[] = [];

  beforeAll(async () => {
    const stdin = { contents: FRONT_END, resolveDir: process.cwd() };
    await build({ stdin, bundle: true, format: 'esm', outfile: join(folder, 'page.js'), logLevel: 'error' });
    writeFileSync(join(folder, 'page.html'), '<div id="chart"></div>');
    browser = await launch();
    page = await browser.newPage({ viewport: { width: 1000, height: 900 } });
    page.on('pageerror', (error) => trouble.push(error.message));
    page.on('console', (m) => /error|warning/.test(m.type()) && trouble.push(m.text()));
    await page.goto(pathToFileURL(join(folder, 'page.html')).href);
    await page.addScriptTag({ path: join(folder, 'page.js'), type: 'module' });
    await page.waitForFunction(() => 'draw' in window);
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const clocks = () =>
    page.$$eval('#chart text', (all) => all.map((t) => t.textContent).filter((text) => /^\d+:\d\d$/.test(text ?? '')));
  const seconds = (clock: string | null) => Number(clock?.split(':')[0]) * 60 + Number(clock?.split(':')[1]);

  it('show the stretch that is brushed, all of them, and everything again after a double click', async () => {
    const spec = linkedCharts(shortTrack(), ['waveform', 'onsets', 'tempogram']);
    await page.evaluate(
      (text) => (window as unknown as { draw: (s: unknown) => Promise<unknown> }).draw(JSON.parse(text)),
      JSON.stringify(spec),
    );
    const whole = await clocks();
    const plot = (await page.locator('#chart svg .mark-area path').first().boundingBox())!;
    const [x, y] = [plot.x + plot.width / 2, plot.y + plot.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + plot.width / 4, y, { steps: 4 });
    await page.mouse.up();
    // The charts are drawn again in their own time: half of their clocks lie in the brushed stretch when all are.
    const last = Math.max(...whole.map(seconds));
    const within = (all: readonly number[]) => all.filter((time) => time >= last * 0.4 && time <= last * 0.9);
    for (let i = 0; i < 60; i++) {
      const now = (await clocks()).map(seconds);
      if (within(now).length > now.length / 2) break;
      await page.waitForTimeout(100);
    }
    const brushed = (await clocks()).map(seconds);
    // Three charts show about the third quarter; the overview goes on showing everything.
    expect(within(brushed).length).toBeGreaterThan(brushed.length / 2);
    expect(new Set(brushed).size).toBeGreaterThan(new Set(whole).size / 2);
    expect(brushed.join()).not.toBe(whole.map(seconds).join());
    await page.mouse.dblclick(x + 5, y);
    const isWhole = async () => (await clocks()).join() === whole.join();
    for (let i = 0; i < 40 && !(await isWhole()); i++) await page.waitForTimeout(100);
    expect((await clocks()).sort()).toEqual([...whole].sort());
    expect(trouble).toEqual([]);
  });
});
