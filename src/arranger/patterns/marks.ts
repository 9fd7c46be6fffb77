import type { BarView } from './view.js';

/** Crashes, sweeps, risers and booms that mark the ones. */
export function playMarks(view: BarView): void {
  const { plan, bar, kit, next } = view;
  const first = bar.phraseBar === 1;
  const loud = plan.function === 'drop' || plan.function === 'main';
  if (first && plan.crash) view.hit('effects', kit.crash(), 0, { level: loud ? 0.42 : 0.32 });
  if (first && plan.opens && bar.number > 1) {
    if (plan.function === 'drop') view.hit('effects', kit.boom(), 0, { level: 0.4 });
    if (loud || plan.function === 'breakdown')
      view.hit('effects', kit.fall(view.seconds(0, bar.beats)), 0, { level: 0.4 });
  }
  if (view.barsLeft === 1 && next?.opens && (next.crash || next.function === 'build-up')) {
    view.hit('effects', kit.reverseCrash(view.seconds(bar.beats - 2, bar.beats)), bar.beats, {
      level: 0.22,
      ends: true,
    });
  }
  if (plan.riserBars > 0 && view.barsLeft === Math.min(plan.riserBars, plan.bars)) {
    const beats = (view.barsLeft - 1) * view.arrangement.beatsPerBar + bar.beats;
    view.hit('effects', kit.riser(view.seconds(0, beats)), beats, { level: 0.5, ends: true });
  }
}
