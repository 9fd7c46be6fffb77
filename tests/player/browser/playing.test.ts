import { describe, expect, it } from 'vitest';
import { positionAt } from '../../../src/player/position.js';
import { viewOf } from '../../../src/player/view.js';
import { CHROMIUM, NO_CHROMIUM } from './chromium.js';
import { fast, first, usePage } from './fixture.js';

describe.skipIf(!CHROMIUM)(`the page in a browser, played${CHROMIUM ? '' : ` (${NO_CHROMIUM})`}`, () => {
  const { open, page, time, isPlaying, text } = usePage();
  const count = async () => [await text('group-bar'), await text('beat')].join(' · ');

  it('counts in step with the sound: no beat is shown a frame before or three after it', async () => {
    await open();
    await page().keyboard.press('Space');
    const seen = await page().evaluate(async () => {
      const audio = document.getElementById('audio') as HTMLAudioElement;
      const [bar, beat] = ['group-bar', 'beat'].map((id) => document.getElementById(id)!);
      const samples: { time: number; count: string; lit: string | undefined }[] = [];
      const lit = () => document.querySelector<SVGElement>('svg.rungs')!.dataset['nowBar'];
      while (audio.currentTime < 4) {
        await new Promise((resolve) => setTimeout(resolve, 23));
        samples.push({ time: audio.currentTime, count: `${bar.textContent} · ${beat.textContent}`, lit: lit() });
      }
      return samples;
    });
    const view = viewOf(first);
    const countAt = (t: number) => {
      const at = positionAt(view, t);
      return at ? `${at.bar.groupBar} · ${at.beat}` : '– · –';
    };
    const late = seen.filter(({ time: t, count: shown }) => ![t, t - 0.05].map(countAt).includes(shown));
    expect(seen.length).toBeGreaterThan(30);
    // A machine that is busy may leave a frame out now and then.
    expect(late.length).toBeLessThanOrEqual(seen.length * 0.1);
    expect(new Set(seen.map((s) => s.count)).size).toBeGreaterThanOrEqual(7);
    expect(seen.at(-1)!.lit).toBe(`${positionAt(view, seen.at(-1)!.time)!.bar.number}`);
  });

  it('jumps to the bar that is clicked, and to phrase one beside the rung', async () => {
    await open();
    await page().click('[data-bar="45"]');
    expect(await time()).toBeCloseTo(first.bars[44].start, 2);
    expect(await count()).toBe('1 · 1');
    expect(await text('where-left')).toBe('14 bars to the next phrase one');
    await page()
      .locator('.rung[data-phrase="2"]')
      .click({ position: { x: 10, y: 10 } });
    expect(await time()).toBeCloseTo(first.phrases[1].start, 2);
  });

  it('says what comes next, in bars and time', async () => {
    await open();
    await page().click('[data-bar="56"]');
    expect(await text('where-next')).toBe('in 3 bars (0:06) · the drop lands: kick in, bass in');
    expect(await text('where-bar')).toContain('bar 56 · build-up · bar 16 of 18 in the phrase');
  });

  it('is played by keys alone', async () => {
    await open();
    const press = async (...keys: string[]) => {
      for (const key of keys) await page().keyboard.press(key);
    };
    await press('4');
    expect(await time()).toBeCloseTo(first.phrases[3].start, 2);
    await press('ArrowDown');
    expect(await time()).toBeCloseTo(first.phrases[4].start, 2);
    await press('ArrowUp', 'ArrowUp');
    expect(await time()).toBeCloseTo(first.phrases[2].start, 2);
    await press('ArrowRight', 'ArrowRight', 'ArrowLeft');
    expect(await time()).toBeCloseTo(first.bars[first.phrases[2].startBar].start, 2);
    await press('+', '+', '+', '-');
    expect(await text('speed-out')).toBe('102 %');
    expect(await page().evaluate(() => (document.getElementById('audio') as HTMLAudioElement).preservesPitch)).toBe(
      true,
    );
    expect(await text('track-head')).toContain('126.48 at 102 %');
    await press('0', 'm');
    expect([await text('speed-out'), await text('volume-out')]).toEqual(['100 %', 'muted']);
    await press('Space');
    expect(await isPlaying()).toBe(true);
    await press('Space', 'Home');
    expect([await isPlaying(), await time()]).toEqual([false, 0]);
    await press(']');
    expect(await text('track-head')).toContain('Half Speed Astern');
    await press('t');
    expect(await page().getAttribute('#tick', 'aria-pressed')).toBe('true');
    await press('?');
    expect(await page().isVisible('#keys')).toBe(true);
    await press('Escape');
    expect(await page().isVisible('#keys')).toBe(false);
    await page().focus('.rung[data-phrase="3"]');
    await press('Enter');
    expect(await time()).toBeCloseTo(fast.phrases[2].start, 2);
  });

  it('plays a phrase round and round, and lets it go', async () => {
    await open();
    const { start, end } = first.phrases[1];
    await page().evaluate((t) => ((document.getElementById('audio') as HTMLAudioElement).currentTime = t), end - 0.4);
    await page().keyboard.press('l');
    expect(await text('loop')).toBe('Looping phrase 2');
    await page().keyboard.press('Space');
    await page().waitForFunction(
      (t) => (document.getElementById('audio') as HTMLAudioElement).currentTime < t,
      end - 5,
    );
    expect(await time()).toBeGreaterThanOrEqual(start - 0.05);
    expect(await isPlaying()).toBe(true);
    await page().keyboard.press('l');
    expect(await text('loop')).toBe('Loop phrase');
  });

  it('lets one hear an irregularity four bars before it', async () => {
    await open();
    await page().click('#breaks button');
    expect(await time()).toBeCloseTo(first.bars[57 - 1 - 4].start, 2);
  });
});
