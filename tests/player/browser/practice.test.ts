import { describe, expect, it } from 'vitest';
import { CHROMIUM, NO_CHROMIUM } from './chromium.js';
import { first, usePage } from './fixture.js';

/** What the page itself knows of time: taps are pressed from inside, so that a busy machine cannot make them late. */
const TAP = (times: readonly number[]) =>
  `(async () => {
    const audio = document.getElementById('audio');
    for (const time of ${JSON.stringify(times)}) {
      while (audio.currentTime < time) await new Promise((done) => setTimeout(done, 2));
      document.body.dispatchEvent(new KeyboardEvent('keydown', { key: 'n', bubbles: true }));
    }
  })()`;

describe.skipIf(!CHROMIUM)(`tapping along${CHROMIUM ? '' : ` (${NO_CHROMIUM})`}`, () => {
  const { open, page, text, isPlaying } = usePage();
  const groupOnes = first.bars.filter((bar) => bar.groupBar === 1).map((bar) => bar.start);

  it('is started, done and ended by keyboard alone, with the count covered, and scored in milliseconds and beats', async () => {
    await open();
    await page().keyboard.press('Tab');
    await page().focus('input[name=practice-target][value=group]');
    await page().keyboard.press('Space');
    await page().focus('#stand');
    await page().keyboard.press('p');
    await page().waitForFunction(() => !(document.getElementById('audio') as HTMLAudioElement).paused);
    expect(await page().$eval('#group-bar', (e) => getComputedStyle(e).visibility)).toBe('hidden');
    const heard = groupOnes.filter((time) => time > 1.5).slice(0, 2);
    await page().evaluate(TAP(heard.map((time) => time + 0.05)));
    await page().keyboard.press('p');
    expect(await page().$eval('#group-bar', (e) => getComputedStyle(e).visibility)).toBe('visible');
    const words = await text('practice-result');
    expect(words).toMatch(/2 of 2 on the right beat\./);
    const late = Number(/(\d+) ms late as a rule/.exec(words)?.[1]);
    expect(late).toBeGreaterThanOrEqual(40);
    expect(late).toBeLessThan(150);
    expect(await page().$$eval('.taps circle', (all) => all.length)).toBe(2);
    expect(await page().$$eval('.taps tbody tr', (all) => all.map((row) => row.children.length))).toEqual([3, 3]);
    expect(await isPlaying()).toBe(true);
  });

  it('has a button to tap on for a phone, wide enough for a thumb, and nothing wider than the screen', async () => {
    await open({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
    await page().tap('#practice-start');
    await page().waitForFunction(() => (document.getElementById('audio') as HTMLAudioElement).currentTime > 0.2);
    const box = (await page().locator('#practice-tap').boundingBox())!;
    expect(box.height).toBeGreaterThanOrEqual(44);
    await page().tap('#practice-tap');
    await page().tap('#practice-start');
    expect(await text('practice-start-word')).toBe('Practise');
    expect(await page().evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  });

  it('forgets what was tapped when another track is chosen', async () => {
    await open();
    await page().keyboard.press('p');
    await page().keyboard.press(']');
    expect(await text('practice-result')).toBe('');
    expect(await page().$eval('#practice-tap', (e) => e.hasAttribute('disabled'))).toBe(true);
  });
});
