import type { Bar } from '../clock.js';
import { dice } from '../dice.js';
import type { Sing } from '../voices/singer.js';
import type { Stage } from './stage.js';
import { note, rootOf } from './tonal.js';

type Syllable = readonly [step: number, length: number, degree: number, vowel: number];

/** Two bars of tune that come again; a verse of its own for each variant of a section. */
function tune(stage: Stage, variant: number): Syllable[][] {
  const d = dice(stage.plan.seed * 13 + variant);
  return [0, 1].map((which) => {
    const out: Syllable[] = [];
    let step = which === 0 ? d.one([0, 0, 2]) : 0;
    const end = which === 0 ? 16 : d.one([10, 12]);
    while (step < end) {
      const length = d.one([2, 2, 3, 4, 4, 6]);
      out.push([step, length - 0.4, d.one([0, 0, 1, 2, 2, 4, 5]), d.whole(0, 4)]);
      step += length;
    }
    return out;
  });
}

export function singer(stage: Stage, sing: Sing): (bar: Bar) => void {
  const tunes = [0, 1, 2].map((variant) => tune(stage, variant));
  const register = stage.d.one([48, 48, 60]);
  return (bar) => {
    if (!bar.has.voice) return;
    const steps = bar.beats * 4;
    for (const [step, length, degree, vowel] of tunes[bar.section.variant][(bar.phraseBar - 1) % 2]) {
      if (step >= steps) continue;
      const seconds = stage.time(bar, Math.min(steps, step + length)) - stage.time(bar, step);
      const n = note(stage, (rootOf(stage, bar) % 3) + degree, register);
      stage.put('voice', sing(n, Math.max(0.06, Math.round(seconds * 200) / 200), vowel), bar, step, 0.6);
    }
  };
}
