import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { CHROMIUM, NO_CHROMIUM } from './chromium.js';
import { fast, HOSTILE, slow, usePage } from './fixture.js';

describe.skipIf(!CHROMIUM)(`the page in a browser, looked at${CHROMIUM ? '' : ` (${NO_CHROMIUM})`}`, () => {
  const { open, page, text, trouble } = usePage();

  it('shows the doubt about the tempo and counts by the reading that is chosen', async () => {
    await open();
    await page().keyboard.press(']');
    expect(await text('doubt')).toMatch(/87 or 174\?.*174 BPM.*60 % of the evidence.*87 BPM.*35 % of the evidence/);
    await page().click('[data-bar="33"]');
    expect(await text('where-bar')).toContain('bar 33 ');
    await page().locator('#doubt label', { hasText: '87 BPM' }).click();
    expect(await text('where-bar')).toContain('bar 17 ');
    expect(await text('doubt')).toContain('barwise correct slack-water.flac --tempo 87');
    expect(await page().locator('.bar').count()).toBe(slow.bars.length);
    await page().locator('#doubt label', { hasText: '174 BPM' }).click();
    expect(await page().locator('.bar').count()).toBe(fast.bars.length);
  });

  it('starts at a moderate volume and says so where one listens', async () => {
    await open();
    expect(await page().evaluate(() => (document.getElementById('audio') as HTMLAudioElement).volume)).toBeCloseTo(
      0.4,
      5,
    );
    expect(await page().isVisible('text=Mind your ears')).toBe(true);
  });

  it('takes a hostile tag as text', async () => {
    await open();
    await page().keyboard.press(']');
    await page().keyboard.press(']');
    expect(await page().textContent('h1')).toBe(HOSTILE);
    expect(await page().textContent('#crate-title')).toBe(HOSTILE);
    expect(await page().evaluate(() => [(window as { broken?: number }).broken ?? 0, document.images.length])).toEqual([
      0, 0,
    ]);
  });

  it('shows a track in which no bar was found, without a count', async () => {
    await open();
    for (let i = 0; i < 3; i++) await page().keyboard.press(']');
    expect(await page().textContent('h1')).toBe('Wind on the Quay');
    expect(await text('group-bar')).toBe('–');
    expect(await page().locator('svg.rungs').count()).toBe(0);
    for (const key of ['ArrowDown', 'ArrowLeft', '3', 'l', 't', 'Space']) await page().keyboard.press(key);
  });

  it('says so when the sound is not where it was', async () => {
    await open();
    await page().evaluate(() => ((document.getElementById('audio') as HTMLAudioElement).src = 'gone.wav'));
    await page().waitForSelector('#trouble:visible');
    expect(await text('trouble')).toMatch(/Slack Water cannot be played here/);
    trouble.length = 0;
  });

  it.each([390, 768, 1280, 1920])('fits a screen of %i pixels', async (width) => {
    await open({ viewport: { width, height: 844 } });
    for (const key of ['[', ']', ']']) {
      await page().keyboard.press(key);
      const wide = await page().evaluate(() => [
        document.documentElement.scrollWidth,
        document.querySelector('svg.rungs')!.getBoundingClientRect().right,
      ]);
      expect(Math.max(...wide)).toBeLessThanOrEqual(width);
    }
  });

  // The rules of axe-core (Deque, MPL-2.0) for WCAG 2.2 A and AA.

  it.each(['light', 'dark'] as const)('breaks no rule of accessibility in the %s', async (colorScheme) => {
    await open({ colorScheme, bypassCSP: true });
    await page().addScriptTag({ path: createRequire(import.meta.url).resolve('axe-core') });
    for (const key of ['[', ']']) {
      await page().keyboard.press(key);
      await page().click('[data-bar="3"]');
      const broken = await page().evaluate(async () => {
        const { axe } = window as unknown as {
          axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
        };
        return (await axe.run()).violations.map(
          (v) =>
            `${v.id}: ${v.nodes
              .map((n) => n.html)
              .join(' ')
              .slice(0, 400)}`,
        );
      });
      expect(broken).toEqual([]);
    }
  });
});
