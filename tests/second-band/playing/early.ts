import { earlyLayers, type Bar } from '../clock.js';
import type { Player } from '../voices/bass.js';
import type { Keys } from '../voices/keys.js';
import type { Sing } from '../voices/singer.js';
import type { Stage } from './stage.js';
import { bassBase, note, rootOf } from './tonal.js';

/** Plays a pick-up: the layers of `next` that start some beats before its one, in eighths that lead up to it. */
export function playEarly(stage: Stage, bar: Bar, next: Bar, bass: Player, keys: Keys, sing: Sing): void {
  const { pickUp } = next.phrase;
  if (pickUp === null || next.phraseBar !== 1) return;
  const steps = bar.beats * 4;
  const root = rootOf(stage, next);
  const seconds = Math.round((stage.time(bar, 2) - stage.time(bar, 0)) * 170) / 200;
  for (let step = Math.max(0, steps - pickUp.beats * 4), i = 0; step < steps; step += 2, i++) {
    for (const layer of earlyLayers(next.phrase, bar.phrase)) {
      const degree = root + [0, 1, 2, 4, 5, 6][i % 6];
      if (layer === 'bass') stage.put('bass', bass(note(stage, degree, bassBase(stage)), seconds), bar, step, 0.8);
      if (layer === 'harmony') stage.put('keys', keys.struck(note(stage, degree, 60), seconds), bar, step, 0.5);
      if (layer === 'voice') stage.put('voice', sing(note(stage, degree % 7, 60), seconds, i % 5), bar, step, 0.6);
    }
  }
}
