import type { Bar } from '../clock.js';
import { strokeAt } from '../styles.js';
import type { Kit } from '../voices/drums.js';
import type { Stage } from './stage.js';

/** Kick and percussion of one bar, with the ending of its phrase. */
export function playDrums(stage: Stage, kit: Kit, bar: Bar, next: Bar | undefined): void {
  const { style, d, plan } = stage;
  const { phrase, section } = bar;
  const perBar = style.beatsPerBar * 4;
  const steps = bar.beats * 4;
  const last = bar.phraseBar === phrase.bars;
  const pick = (list: readonly string[]) => list[(section.variant + plan.seed) % list.length];
  const ends = last && next !== undefined ? phrase.ending : 'none';
  const quietFrom = ends === 'gap' ? steps - 4 : ends === 'stutter' ? steps - 8 : steps;
  const kicksEnd = ends === 'kick-away' ? Math.max(0, steps - 12) : quietFrom;
  const topsOnly = section.function === 'intro' || section.function === 'outro' || section.function === 'breakdown';

  for (let s = 0; s < steps; s++) {
    const human = 1 + (plan.acoustic ? 0.2 : 0.05) * (d.roll() - 0.5);
    const kick = phrase.halfTime ? (s === 0 ? 1 : 0) : strokeAt(pick(style.kick), perBar, bar.phraseBar, s);
    if (bar.has.kick && kick > 0 && s < kicksEnd) {
      stage.put('kick', kit.kick, bar, s, kick * human);
      stage.kicks.push(stage.time(bar, s));
    }
    if (!bar.has.percussion || s >= quietFrom) continue;
    const back = phrase.halfTime ? (s === 8 ? 1 : 0) : strokeAt(pick(style.back), perBar, bar.phraseBar, s);
    if (back > 0 && !(topsOnly && section.variant === 1))
      stage.put('drums', back > 0.35 ? kit.back : kit.ghost, bar, s, 0.8 * back * human);
    const top = strokeAt(pick(style.tops), perBar, bar.phraseBar, s);
    if (top > 0) stage.put('tops', top === 1 && s % 4 === 2 ? kit.open : kit.tick, bar, s, 0.45 * top * human);
    const extra = topsOnly ? 0 : strokeAt(pick(style.extra), perBar, bar.phraseBar, s);
    if (extra > 0) stage.put('tops', kit.extra, bar, s, 0.35 * extra * human);
  }
  if (bar.has.percussion) playEnding(stage, kit, bar, ends, steps);
  if (section.function === 'build-up' && bar.has.percussion) playRoll(stage, kit, bar, steps);
  if (bar.phraseBar === 1 && (bar.has.kick || bar.has.percussion)) {
    const opens = bar.phrase === section.phrases[0];
    if (bar.number > 1 && d.happens(opens ? 0.75 : 0.25)) stage.put('effects', kit.crash, bar, 0, 0.5);
  }
}

function playEnding(stage: Stage, kit: Kit, bar: Bar, ending: string, steps: number): void {
  const from = Math.max(0, steps - 8);
  if (ending === 'toms') for (let s = from; s < steps; s += 2) stage.put('drums', kit.toms[Math.min(3, (s - from) >> 1)], bar, s, 0.8); // prettier-ignore
  if (ending === 'snare-run') for (let s = from; s < steps; s++) stage.put('drums', kit.back, bar, s, 0.3 + (0.06 * (s - from)) / 1); // prettier-ignore
  if (ending === 'stutter') for (let s = from; s < steps; s += 2) stage.put('drums', kit.tick, bar, s, 0.5);
  if (ending === 'claps') for (const s of [steps - 6, steps - 3, steps - 1]) if (s > 0) stage.put('drums', kit.clap, bar, s, 0.6); // prettier-ignore
}

/** Strokes that double, from quarters to sixteenths, to the end of the section. */
function playRoll(stage: Stage, kit: Kit, bar: Bar, steps: number): void {
  const share = bar.phraseBar / bar.phrase.bars;
  const every = share <= 0.5 ? 4 : share <= 0.75 ? 2 : 1;
  for (let s = 0; s < steps; s += every) stage.put('drums', kit.ghost, bar, s, 0.25 + 0.4 * share);
}
