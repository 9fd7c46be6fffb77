import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { renderDrill } from '../../../src/player/index.js';
import { drillAhead, drillTheOne, HEARING_CAUTION, type Drill } from '../../../src/practice/index.js';
import { clickRecord } from '../../practice/click-record.js';
import { CHROMIUM, NO_CHROMIUM } from './chromium.js';
import { usePages } from './pages.js';

interface Started {
  readonly node: AudioBufferSourceNode;
  readonly when: number;
}
type Watched = Window & { started?: Started; gain?: GainNode };

/** Keeps what the page starts, so that a test can press a key by the clock of the sound. */
function watch(): void {
  const { prototype: source } = AudioBufferSourceNode;
  const start = Reflect.get<AudioBufferSourceNode, 'start'>(source, 'start');
  source.start = function (when = 0) {
    (window as Watched).started = { node: this, when };
    start.call(this, when);
  };
  const { prototype: any } = AudioNode;
  const connect = Reflect.get(any, 'connect') as (this: AudioNode, to: AudioNode) => AudioNode;
  any.connect = function (this: AudioNode, to: AudioNode) {
    if (this instanceof GainNode) (window as Watched).gain = this;
    return connect.call(this, to);
  } as typeof any.connect;
}

describe.skipIf(!CHROMIUM)(`a drill in a browser${CHROMIUM ? '' : ` (${NO_CHROMIUM})`}`, () => {
  let [ahead, theOne]: Drill[] = [];
  const pages = usePages('barwise-drill-', /^(file|data):/, async (folder) => {
    ahead = await drillAhead({ seed: 3 });
    theOne = await drillTheOne(await clickRecord(folder, 'a', 124, 1000));
    // the two that are FLAC, and one as MP3, as the drill of handovers is
    const mp3: Drill = { ...ahead, name: 'phrase-matched' };
    for (const [name, drill] of Object.entries({ ahead, theOne, mp3 }))
      writeFileSync(join(folder, `${name}.html`), await renderDrill(drill));
  });
  let page: Page;

  const open = async (name: string, options: Parameters<Browser['newPage']>[0] = {}) => {
    page = await pages.open(`${name}.html`, { viewport: { width: 390, height: 844 }, ...options }, watch);
  };
  const press = (key: string) => page.keyboard.press(key);
  const text = async (id: string) => (await page.textContent(`#${id}`)) ?? '';
  const play = async () => {
    await page.evaluate(() => delete (window as Watched).started);
    await press(' ');
    await page.waitForFunction(() => (window as Watched).started !== undefined);
    await page.waitForSelector('#answers button:not([disabled])');
  };
  /** Presses N when so many seconds of the question have been played. */
  const tapAt = (seconds: number) =>
    page.evaluate(
      (wanted) =>
        new Promise<void>((done) => {
          const { node, when } = (window as Watched).started!;
          const look = () => {
            const stamp = (node.context as AudioContext).getOutputTimestamp();
            const heard = stamp.contextTime! + (performance.now() - stamp.performanceTime!) / 1000 - when;
            if (heard < wanted) return void setTimeout(look, 1);
            document.dispatchEvent(new KeyboardEvent('keydown', { key: 'n', bubbles: true }));
            done();
          };
          look();
        }),
      seconds,
    );

  it('is played from the first question to the score by keyboard alone', async () => {
    await open('ahead');
    const right = ahead.items.map(({ reply }) => (reply.kind === 'choice' ? reply.right : NaN));
    for (const [i, answer] of right.entries()) {
      expect(await text('place')).toBe(`Question ${i + 1} of 8`);
      await press('1'); // nothing is answered before it was heard
      expect(await text('verdict')).toBe('');
      await play();
      await press(`${(i < 3 ? 1 - answer : answer) + 1}`); // the first three wrong
      expect(await text('verdict')).toContain(i < 3 ? 'Not right' : 'Right');
      expect(await text('verdict')).toContain(ahead.items[i].answer);
      await press('Enter');
    }
    expect(await text('score')).toBe('5 of 8 right');
    expect(await text('score-more')).toBe('To hear again: 1, 2, 3.');
    expect(await page.locator('#sheet tr').count()).toBe(8);
    await press('Enter');
    expect(await text('place')).toBe('Question 1 of 8');
  });

  it('tells a tap on the one by its milliseconds, and another by the beats it is off', async () => {
    await open('theOne');
    const { items, beat } = theOne;
    const target = (i: number) => (items[i].reply as { at: number }).at - items[i].from;
    await play();
    await tapAt(target(0));
    await page.waitForSelector('#verdict.right, #verdict.wrong', { timeout: 30_000 });
    const verdict = await text('verdict');
    expect(verdict).toMatch(/^Right \((on it|\d+ ms (late|early))\)/);
    expect(Number(/(\d+) ms/.exec(verdict)?.[1] ?? 0)).toBeLessThan(60);
    await press('Enter');
    await play();
    await tapAt(target(1) - 2 * beat);
    await page.waitForSelector('#verdict.wrong', { timeout: 30_000 });
    expect(await text('verdict')).toContain('2 beats early');
  });

  it('starts at a moderate level, never goes above the level that the sound was made at, and cautions', async () => {
    await open('ahead');
    expect(await page.textContent('.caution')).toContain(HEARING_CAUTION.slice(0, 40));
    await play();
    const level = () => page.evaluate(() => (window as Watched).gain!.gain.value);
    expect(await level()).toBeCloseTo(0.4, 2);
    for (let i = 0; i < 30; i++) await press('ArrowUp');
    await page.waitForTimeout(200);
    expect(await level()).toBeLessThanOrEqual(1);
    expect(await text('volume-out')).toBe('100 %');
  });

  it('plays MP3 as well as FLAC, each question for as long as it lasts', async () => {
    const lengths: number[] = [];
    for (const name of ['ahead', 'mp3']) {
      await open(name);
      await play();
      lengths.push(await page.evaluate(() => (window as Watched).started!.node.buffer!.duration));
      if (name === 'ahead') await page.close();
    }
    const { from, to } = ahead.items[0];
    expect(lengths[0]).toBeCloseTo(to - from, 3);
    expect(Math.abs(lengths[1] - (to - from))).toBeLessThan(0.08); // MP3 comes in frames of 26 ms, and a delay
  });

  it.each([390, 768, 1280])('fits a screen of %i pixels', async (width) => {
    await open('theOne', { viewport: { width, height: 844 } });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  });

  // The rules of axe-core (Deque, MPL-2.0) for WCAG 2.2 A and AA.
  it.each(['light', 'dark'] as const)('breaks no rule of accessibility that can be tested: %s', async (colorScheme) => {
    await open('ahead', { colorScheme, bypassCSP: true });
    await play();
    await press('1');
    await page.addScriptTag({ path: createRequire(import.meta.url).resolve('axe-core') });
    const found = await page.evaluate(async () => {
      const { axe } = window as unknown as {
        axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
      };
      return (await axe.run()).violations.map(({ id, nodes }) => `${id}: ${nodes.map((n) => n.html).join(' ')}`);
    });
    expect(found).toEqual([]);
  });
});
