import type { BarNumber, IrregularityKind } from '../units/index.js';
import type { Arrangement } from './arrangement.js';
import type { PhrasePlan } from './phrase.js';
import type { Timeline } from './timeline.js';
import type { PlantedIrregularity } from './truth.js';

/** Shorter stretches without a pulse are a breath, not a passage. */
const LEAST_BEATLESS_BARS = 8;

/** Only sustained sound and a voice: nothing that strikes the beats. */
function isBeatless(plan: PhrasePlan): boolean {
  const struck = plan.has.kick || plan.has.percussion || plan.has.bass;
  return !struck && !(plan.has.harmony && plan.textures.some((texture) => texture !== 'pad'));
}

/** Runs of neighbouring phrases for which `test` holds, as first bar and length in bars. */
function runs(timeline: Timeline, test: (plan: PhrasePlan) => boolean): { startBar: BarNumber; bars: number }[] {
  const found: { startBar: BarNumber; bars: number }[] = [];
  let inside = false;
  for (const { plan, startBar } of timeline.phrases) {
    const holds = test(plan);
    if (holds && inside) found[found.length - 1].bars += plan.bars;
    else if (holds) found.push({ startBar, bars: plan.bars });
    inside = holds;
  }
  return found;
}

/** Everything in an arrangement that leaves its own pattern, by bar; the convention for `bar` is in units/vocabulary. */
export function plantedIrregularities(arrangement: Arrangement, timeline: Timeline): PlantedIrregularity[] {
  const { bars, phrases, tempos } = timeline;
  const found: PlantedIrregularity[] = [];
  const plant = (kind: IrregularityKind, bar: BarNumber, amount: number): void => {
    if (bar <= bars.length) found.push({ kind, bar, time: bars[bar - 1].start, amount });
  };
  phrases.forEach(({ plan, startBar }, i) => {
    if (plan.addedBars > 0) plant('added-bars', startBar + plan.bars - plan.addedBars, plan.addedBars);
    if (plan.addedBars < 0) plant('dropped-bars', startBar + plan.bars, -plan.addedBars);
    if (plan.odd) plant('odd-phrase', startBar, plan.bars);
    // A layer that plays already does not come in early.
    const early = plan.pickUp?.layers.some((layer) => !phrases[i - 1]?.plan.has[layer]) ?? false;
    if (plan.pickUp !== null && early) plant('pick-up', startBar, plan.pickUp.beats);
    for (const { bar, beats } of plan.oddBars) {
      const surplus = beats - arrangement.beatsPerBar;
      if (surplus !== 0) plant(surplus > 0 ? 'added-beats' : 'dropped-beats', startBar + bar - 1, Math.abs(surplus));
    }
  });
  for (const run of runs(timeline, isBeatless)) {
    if (run.bars >= LEAST_BEATLESS_BARS) plant('beatless-passage', run.startBar, run.bars);
  }
  for (const run of runs(timeline, (plan) => plan.halfTime)) plant('half-time', run.startBar, run.bars);
  for (const bar of bars.slice(1)) {
    if (tempos[bar.firstBeat] !== tempos[bar.firstBeat - 1]) plant('tempo-change', bar.number, 0);
  }
  if (arrangement.drift !== undefined) plant('drift', 1, 0);
  return found.sort((a, b) => a.bar - b.bar);
}
