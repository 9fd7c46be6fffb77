import { existsSync } from 'node:fs';
import { chromium, type Browser } from 'playwright-core';

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

/** The browser of this machine: BARWISE_CHROMIUM, or where systems put it; `undefined` when there is none. */
export const CHROMIUM = [process.env['BARWISE_CHROMIUM'], ...PLACES].find((path) => path && existsSync(path));

/** What a skipped test says. */
export const NO_CHROMIUM = 'skipped: no Chromium here; install it (Debian: chromium) or name it in BARWISE_CHROMIUM';

export function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: CHROMIUM!,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--autoplay-policy=no-user-gesture-required',
    ],
  });
}
