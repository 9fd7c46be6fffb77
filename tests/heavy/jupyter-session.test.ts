import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createServer } from 'node:net';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CHROMIUM, launch } from '../player/browser/chromium.js';
import { BARWISE, makeJupyterHome, pythonWith } from './jupyter/home.js';

const DEMO = 'demo/crate/03-rope-locker-lights.mp3';
const missing = [
  ...(pythonWith('notebook') ? [] : ['Jupyter (Debian: jupyter-notebook)']),
  ...(CHROMIUM ? [] : ['a browser (Debian: chromium)']),
  ...(existsSync(DEMO) ? [] : ['the demo crate (npm run demo)']),
];
/** Complaints of Jupyter's own page that are none of ours. */
const OF_JUPYTER =
  /favicon|custom\.(css|js)|codemirror|Deprecat|notebook is not trusted|Could not load mode|404|nbextensions/i;

describe.skipIf(missing.length > 0)(
  `a live session in Jupyter${missing.length > 0 ? ` (skipped: ${missing.join(', ')} is missing)` : ''}`,
  () => {
    const home = makeJupyterHome();
    const trouble: string[] = [];
    let [server, browser, page]: [ChildProcess, Browser, Page] = [] as never;
    let said = '';

    beforeAll(async () => {
      const port = await freePort();
      const options = [
        `--port=${port}`,
        '--no-browser',
        '--allow-root',
        '--NotebookApp.token=',
        '--NotebookApp.password=',
      ];
      const args = [BARWISE, 'notebook', 'inspect-track', '--open', '--', ...options];
      server = spawn(process.execPath, args, { cwd: home.folder, env: { ...home.env, JUPYTER_PATH: '' } });
      server.stderr!.setEncoding('utf8').on('data', (text: string) => (said += text));
      const url = `http://localhost:${port}/notebooks/inspect-track.ipynb`;
      await until(
        () => fetch(url).then((r) => r.ok),
        60,
        () => `Jupyter does not answer:\n${said}`,
      );
      browser = await launch();
      page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
      page.on('pageerror', (error) => trouble.push(error.message));
      page.on(
        'console',
        (m) => m.type() === 'error' && !OF_JUPYTER.test(m.text() + m.location().url) && trouble.push(m.text()),
      );
      await page.goto(url);
      await page.waitForSelector('#kernel_indicator_icon.kernel_idle_icon', { timeout: 60_000 });
    });
    afterAll(async () => {
      await browser?.close();
      server?.kill('SIGTERM');
      await new Promise((resolve) => (server ? server.once('close', resolve) : resolve(0)));
      home.remove();
    });

    /** Cells whose prompt says that they have run, and all code cells. */
    const prompts = () =>
      page.$$eval('.code_cell .input_prompt', (all) => all.map((p) => p.textContent.replace(/\s/g, ' ').trim()));

    it('runs the whole notebook by keyboard alone and shows charts, tables and a player', async () => {
      await page.keyboard.press('Escape');
      await page.keyboard.press('Control+Home');
      const cells = await page.$$eval('.cell', (all) => all.length);
      // Shift-Enter runs a cell and goes on to the next.
      await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
      await page.click('.cell >> nth=0');
      await page.keyboard.press('Escape');
      for (let i = 0; i < cells; i++) await page.keyboard.press('Shift+Enter');
      await until(
        async () => {
          const marks = (await prompts()).filter((mark) => mark !== 'In [ ]:');
          return marks.length >= 19 && marks.every((mark) => /\d/.test(mark));
        },
        240,
        async () => `Not all cells ran: ${(await prompts()).join(' ')}`,
      );
      expect(await page.$$eval('.output_error', (all) => all.map((e) => e.textContent))).toEqual([]);
      expect(await page.$$eval('.output_svg svg, .output_svg img', (all) => all.length)).toBeGreaterThanOrEqual(13);
      expect(await page.$$eval('.output_html table', (all) => all.length)).toBeGreaterThanOrEqual(2);
      expect(await page.title()).toContain('inspect-track');
      expect(await page.textContent('.kernel_indicator_name')).toBe('Barwise (TypeScript)');
    });

    it('plays and counts along in the cell, by keyboard', async () => {
      const frame = page.frames().find((f) => f !== page.mainFrame() && f.parentFrame() === page.mainFrame())!;
      await frame.waitForSelector('#play');
      await frame.focus('#stand');
      await page.keyboard.press('Space');
      await frame.waitForFunction(() => (document.getElementById('audio') as HTMLAudioElement).currentTime > 1);
      expect(await frame.textContent('#where-bar')).toMatch(/bar \d+/);
      await page.keyboard.press('Space');
    });

    it('stops an endless cell when the person interrupts it, and goes on', async () => {
      await page.click('.code_cell >> nth=0 >> .input_prompt');
      await page.keyboard.press('Escape');
      await page.keyboard.press('b');
      await page.keyboard.press('Enter');
      await page.keyboard.type('await 0; for (;;) {}');
      await page.keyboard.press('Control+Enter');
      await page.waitForSelector('#kernel_indicator_icon.kernel_busy_icon');
      await page.keyboard.press('Escape');
      await page.keyboard.press('i');
      await page.keyboard.press('i');
      await page.waitForSelector('.output_error:has-text("The cell was interrupted.")', { timeout: 30_000 });
      await page.keyboard.press('b');
      await page.keyboard.press('Enter');
      await page.keyboard.type('analysis.phrases.length > 3');
      await page.keyboard.press('Control+Enter');
      await page.waitForSelector('.output_result:has-text("true")', { timeout: 30_000 });
    });

    it('leaves no complaint in the console', () => expect(trouble).toEqual([]));
  },
);

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as { port: number };
      server.close(() => resolve(port));
    });
  });
}

async function until(
  isDone: () => Promise<boolean>,
  seconds: number,
  complaint: () => string | Promise<string>,
): Promise<void> {
  const end = Date.now() + seconds * 1000;
  while (!(await isDone().catch(() => false))) {
    if (Date.now() > end) throw new Error(await complaint());
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
}
