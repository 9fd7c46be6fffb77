import type { Bar } from '../clock.js';
import type { Player } from '../voices/bass.js';
import type { Keys } from '../voices/keys.js';
import type { Stage } from './stage.js';

const SCALES = { minor: [0, 2, 3, 5, 7, 8, 10], major: [0, 2, 4, 5, 7, 9, 11] } as const;

/** The octave of C in which a bass plays, so that its lowest tonic lies between F1 and E2. */
export const bassBase = (stage: Stage): number => (stage.plan.tonic < 5 ? 36 : 24);

/** Note number of a scale degree (0 is the tonic); `base` is a C. */
export function note(stage: Stage, degree: number, base: number): number {
  const scale = SCALES[stage.plan.mode];
  const octave = Math.floor(degree / 7);
  return base + stage.plan.tonic + 12 * octave + scale[degree - 7 * octave];
}

/** The chord root of a bar; a phrase of odd length has its last chord stretched or its loop cut to its own length. */
export function rootOf(stage: Stage, bar: Bar): number {
  const { loop, unit } = stage.plan;
  const own = bar.phrase.odd ? (bar.phrase.bars % 3 === 0 ? 3 : bar.phrase.bars % 5 === 0 ? 5 : bar.phrase.bars) : loop.length; // prettier-ignore
  const surplus = bar.phrase.added > 0 && bar.phraseBar > unit;
  const at = surplus ? loop.length - 1 : (bar.phraseBar - 1) % own;
  return loop[at % loop.length];
}

type Line = readonly (readonly [step: number, length: number, degree: number])[];

const LINES: Readonly<Record<string, Line>> = {
  offbeat: [[2, 2, 0], [6, 2, 0], [10, 2, 0], [14, 2, 0]],
  eighths: [0, 2, 4, 6, 8, 10, 12, 14].map((s) => [s, 1.6, 0] as const),
  skipping: [[0, 2, 0], [3, 1.5, 0], [6, 2, 4], [10, 2, 0], [13, 1.5, 7]],
  long: [[0, 10, 0], [10, 5, 0]],
  walking: [[0, 4, 0], [4, 4, 2], [8, 4, 4], [12, 4, 5]],
  octaves: [[0, 2, 0], [2, 2, 7], [4, 2, 0], [6, 2, 7], [8, 2, 0], [10, 2, 7], [12, 2, 0], [14, 2, 7]],
  answer: [[0, 3, 0], [3, 2, 0], [8, 2, 4], [11, 4, 6]],
}; // prettier-ignore

export function playBass(stage: Stage, bass: Player, bar: Bar): void {
  if (!bar.has.bass) return;
  const names = stage.style.bass;
  const line = LINES[names[(stage.plan.seed + (bar.section.variant >> 1)) % names.length]];
  const steps = bar.beats * 4;
  for (const [step, length, degree] of line) {
    if (step >= steps) continue;
    const until = Math.min(steps, step + length);
    const seconds = stage.time(bar, until) - stage.time(bar, step);
    stage.put(
      'bass',
      bass(note(stage, rootOf(stage, bar) + degree, bassBase(stage)), rounded(seconds)),
      bar,
      step,
      0.8,
    );
  }
}

/** To 5 ms, so that notes of a swaying tempo can be played from memory. */
const rounded = (seconds: number) => Math.max(0.05, Math.round(seconds * 200) / 200);

const RHYTHMS = [
  [0, 3, 6, 10, 14],
  [2, 6, 10, 14],
  [0, 6, 12],
  [4, 7, 12, 15],
  [0, 2, 4, 6, 8, 10, 12, 14],
] as const;

export function playKeys(stage: Stage, keys: Keys, bar: Bar): void {
  if (!bar.has.harmony) return;
  const { manner } = bar.phrase;
  const root = rootOf(stage, bar);
  const steps = bar.beats * 4;
  const chord = [0, 2, 4, stage.plan.seed % 3 === 0 ? 6 : 7].map((k) => note(stage, root + k, 48));
  if (manner !== 'struck') {
    const seconds = rounded(stage.time(bar, steps) - stage.time(bar, 0));
    for (const n of chord) stage.put('keys', keys.held(n, seconds), bar, 0, 0.2);
  }
  if (manner === 'held') return;
  const broken = (stage.plan.seed + bar.section.variant) % 3 === 0;
  const rhythm = RHYTHMS[(stage.plan.seed + 2 * bar.section.variant) % RHYTHMS.length];
  rhythm.forEach((step, i) => {
    if (step >= steps) return;
    const seconds = rounded((stage.time(bar, 1.5) - stage.time(bar, 0)) * (broken ? 1.5 : 1));
    const played = broken ? [chord[(i + bar.phraseBar) % chord.length] + 12] : chord;
    for (const n of played) stage.put('keys', keys.struck(n, seconds), bar, step, broken ? 0.45 : 0.24);
  });
}
