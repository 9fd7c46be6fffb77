import { describe, expect, test } from 'vitest';
import { STYLES } from '../../src/arranger/index.js';
import { createKit } from '../../src/arranger/kit.js';
import { createFeed } from '../../src/arranger/mix/feed.js';
import type { Hit } from '../../src/arranger/mix/feed.js';
import { seededRandom } from '../../src/arranger/random.js';
import { writeScore } from '../../src/arranger/score.js';
import { STYLE_TABLE } from '../../src/arranger/styles.js';
import { layOut } from '../../src/arranger/timeline.js';
import { small } from './small.js';

const SECONDS = 7;

/** Level in decibels of what is fed to a bus, on its left side. */
function level(hits: readonly Hit[]): number {
  const frames = SECONDS * 44100;
  const bus = { left: new Float32Array(frames), right: new Float32Array(frames) };
  createFeed(hits)(bus, 0, frames);
  return 10 * Math.log10(bus.left.reduce((sum, value) => sum + value * value, 0) / frames + 1e-9);
}

describe('the balance of the layers', () => {
  test.each(STYLES)('%s: no layer is buried under the others', (style) => {
    const beatsPerBar = style === 'lilting-three' ? 3 : 4;
    const layers = ['kick', 'bass', 'percussion', 'harmony', 'voice'] as const;
    const arrangement = small([{ function: 'main', phrases: [{ bars: 4, layers }] }], { style, beatsPerBar });
    const kit = createKit(STYLE_TABLE[style], seededRandom(arrangement.seed).fork('kit'));
    const score = writeScore(arrangement, layOut(arrangement), kit);
    const [kick, bass, chords, voice] = [score.kick, score.bass, score.chords, score.voice].map(level);
    const percussion = level([...score.drums, ...score.room]);
    expect(Math.abs(kick - bass)).toBeLessThan(9);
    expect(Math.abs(voice - chords)).toBeLessThan(6);
    expect(percussion).toBeGreaterThan(kick - 17);
  });
});
