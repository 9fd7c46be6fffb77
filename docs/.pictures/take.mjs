// Makes the pictures of the guide from the demo crate: `npm run demo` first, then `npm run docs:pictures [NAME …]`.
// Needs a browser and a PDF reader (Debian: chromium, poppler-utils).
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const PICTURES = join(ROOT, 'docs', 'guide', 'pictures');
const CRATE = join(ROOT, 'demo', 'crate');
const PROGRAM = join(ROOT, 'dist', 'src', 'cli', 'main.js');
const BROWSERS = [process.env['BARWISE_CHROMIUM'], '/usr/bin/chromium', '/usr/bin/chromium-browser'];

const [calm, odd] = ['01-slack-water.wav', '03-rope-locker-lights.mp3'].map((name) => join(CRATE, name));
const QUALITY = 80;
/** Height of a window in which everything is in view (CSS pixels). */
const TALL = 16_000;

/** Each picture: what is made for it, and what is seen of it. Widths in CSS pixels, drawn at twice as many. */
const PICTURES_BY_NAME = {
  lesson: async (take) => take.image(await take.make('lesson', odd, '--paper', '16:9', '--resolution', '100', '.png'), 900),
  worksheet: async (take) => take.image(take.page(await take.make('worksheet', odd, '--level', '2', '.pdf'), 1), 480),
  card: async (take) => {
    const card = await take.make('cards', odd, '.pdf');
    return take.images([take.page(card, 1), take.page(card, 2)], 380);
  },
  transition: async (take) => take.image(take.page(await take.make('match', calm, odd, '.pdf'), 1), 620),
  page: async (take) => take.web(await take.make('show', CRATE, '.html'), { width: 1280, height: 860 }, playingOdd),
  phone: async (take) => take.web(await take.make('show', CRATE, '.html'), { width: 390, height: 844 }, playingOdd),
  notebook: async (take) => take.element(await take.notebook('inspect-track', `track=${odd}`), 'svg', 1),
};

/** The page at the place where the track leaves its pattern. */
async function playingOdd(page) {
  await page.getByText('Rope Locker Lights').first().click();
  for (let phrase = 1; phrase < 8; phrase++) await page.keyboard.press('ArrowDown');
  await page.evaluate(() => window.scrollTo(0, 0));
  await page.waitForTimeout(500);
}

async function main(wanted) {
  for (const needed of [PROGRAM, CRATE]) if (!existsSync(needed)) throw new Error(`${needed} is missing: npm run demo first.`);
  const executablePath = BROWSERS.find((path) => path && existsSync(path));
  if (!executablePath) throw new Error('There is no browser: install it (Debian: apt install chromium).');
  const folder = mkdtempSync(join(tmpdir(), 'barwise-pictures-'));
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  try {
    for (const [name, picture] of Object.entries(PICTURES_BY_NAME)) {
      if (wanted.length > 0 && !wanted.includes(name)) continue;
      const file = join(PICTURES, `${name}.webp`);
      writeFileSync(file, await picture(createTaker(browser, folder)));
      console.log(`${name}.webp  ${Math.round(statSync(file).size / 1000)} kB`);
    }
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What pictures are made with. */
function createTaker(browser, folder) {
  const run = (...args) => execFileSync(process.execPath, [PROGRAM, ...args], { cwd: folder, stdio: ['ignore', 'pipe', 'ignore'] });
  const open = (viewport) => browser.newPage({ viewport, deviceScaleFactor: 1.5, colorScheme: 'light' });

  /** WebP, which Playwright itself does not write. */
  async function shot(page, clip) {
    const session = await page.context().newCDPSession(page);
    const area = clip && { clip: { ...clip, scale: 1.5 } };
    const { data } = await session.send('Page.captureScreenshot', { format: 'webp', quality: QUALITY, ...area });
    await page.close();
    return Buffer.from(data, 'base64');
  }

  async function images(files, width) {
    const page = await open({ width: files.length * (width + 16), height: TALL });
    const type = (file) => (file.endsWith('.svg') ? 'svg+xml' : 'png');
    const data = (file) => `data:image/${type(file)};base64,${readFileSync(file).toString('base64')}`;
    const tags = files.map((file) => `<img src="${data(file)}" style="width:${width}px;border:1px solid #ccc">`);
    await page.setContent(`<body style="margin:0;display:flex;align-items:flex-start;gap:16px;background:#fff">${tags.join('')}</body>`);
    await page.waitForFunction(() => [...document.images].every((i) => i.complete && i.naturalWidth > 0));
    const height = await page.evaluate(() => Math.ceil(document.images[0].getBoundingClientRect().height));
    return shot(page, { x: 0, y: 0, width: files.length * width + (files.length - 1) * 16, height });
  }

  return {
    images,
    image: (file, width) => images([file], width),

    /** Runs a command of Barwise into a file with the ending that comes last. */
    async make(command, ...args) {
      const out = join(folder, `${command}${args.at(-1)}`);
      rmSync(out, { force: true });
      run(command, ...args.slice(0, -1), '--out', out);
      return out;
    },

    async notebook(name, parameter) {
      run('notebook', name, '-p', parameter, '--html');
      return join(folder, `${name}-run.html`);
    },

    /** A page of a PDF as a picture. */
    page(pdf, number) {
      const name = pdf.replace(/\.pdf$/, `-${number}`);
      execFileSync('pdftoppm', ['-r', '150', '-f', String(number), '-l', String(number), '-singlefile', '-png', pdf, name]);
      return `${name}.png`;
    },

    async web(file, viewport, prepare) {
      const page = await open(viewport);
      await page.goto(pathToFileURL(file).href);
      await page.waitForTimeout(800);
      await prepare(page);
      return shot(page);
    },

    /** One element of a page, by its number among those of its kind. */
    async element(file, selector, number) {
      const page = await open({ width: 1000, height: TALL });
      await page.goto(pathToFileURL(file).href);
      await page.waitForTimeout(800);
      return shot(page, await page.locator(selector).nth(number).boundingBox());
    },
  };
}

try {
  await main(process.argv.slice(2));
} catch (error) {
  console.error(error.message);
  process.exitCode = 1;
}
