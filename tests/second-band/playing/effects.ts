import type { Bar } from '../clock.js';
import type { Kit } from '../voices/drums.js';
import { full, hiss, RATE, sound, tone } from '../voices/shapes.js';
import type { Stage } from './stage.js';

/** Sweeps, cymbals backwards and falls that lead from a section to the next. */
export function playEffects(stage: Stage, kit: Kit, bar: Bar, next: Bar | undefined): void {
  const { section, phrase } = bar;
  const last = bar.phraseBar === phrase.bars && next !== undefined;
  if (last && (phrase.ending === 'backwards' || (next.section !== section && stage.d.happens(0.25)))) {
    const seconds = Math.min(1.6, stage.time(bar, bar.beats * 4) - stage.time(bar, 0));
    const backwards = kit.crash.slice(0, Math.round(seconds * RATE)).reverse();
    stage.put('effects', backwards, bar, 4 * bar.beats * (1 - seconds / (stage.time(bar, bar.beats * 4) - stage.time(bar, 0))), 0.4); // prettier-ignore
  }
  const rises = section.function === 'build-up' && phrase === section.phrases.at(-1) && bar.phraseBar === Math.max(1, phrase.bars - 3); // prettier-ignore
  if (rises) {
    const end = stage.clock.beats[bar.firstBeat + Math.min(4, phrase.bars) * bar.beats] ?? stage.clock.beats.at(-1)!;
    const seconds = end - bar.start;
    const noise = hiss(stage.plan.seed);
    const raw = sound(seconds, (t) => (noise() * t * t) / seconds / seconds);
    stage.put('effects', full(tone(raw, 'band', (i) => 300 + (4500 * i) / (seconds * RATE), 2)), bar, 0, 0.4);
  }
  if (section.function === 'drop' && bar.phraseBar === 1 && phrase === section.phrases[0] && stage.d.happens(0.5)) {
    const fall = sound(1.8, (t) => Math.sin(6.28318 * (30 * t + (90 / 1.4) * (1 - Math.exp(-1.4 * t)))) * Math.exp(-t / 0.7)); // prettier-ignore
    stage.put('effects', fall, bar, 0, 0.4);
  }
}
