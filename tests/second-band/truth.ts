import type { ArrangementTruth, PlantedIrregularity } from '../../src/arranger/index.js';
import { LAYERS, PITCH_CLASSES, type IrregularityKind } from '../../src/units/index.js';
import { earlyLayers, type Bar, type Clock } from './clock.js';
import type { Plan } from './plan.js';
import { STYLES } from './styles.js';

export type LayerEvent = ArrangementTruth['events'][number];

/** The truth, and apart from it the layer events that nobody can hear: to report one is neither right nor wrong. */
export interface BandTruth extends ArrangementTruth {
  readonly inaudible: readonly LayerEvent[];
}

/** Whether the layer of an event can be heard on the side of it where it plays. */
export type Hearing = (event: LayerEvent) => boolean;

/** Shorter stretches without anything that strikes are a breath. */
const LEAST_BEATLESS = 8;

export function truthOf(plan: Plan, clock: Clock, hears: Hearing): BandTruth {
  const { bars, beats } = clock;
  const end = beats[beats.length - 1];
  const startOf = (bar: number) => bars[bar - 1]?.start ?? end;
  const spans = (key: (bar: Bar) => number) => {
    const firsts = bars.filter((bar, i) => i === 0 || key(bar) !== key(bars[i - 1]));
    return firsts.map((bar, i) => ({ bar, bars: (firsts[i + 1]?.number ?? bars.length + 1) - bar.number }));
  };
  const events = layerEvents(clock);
  const tempos = beats.slice(1).map((t, i) => 60 / (t - beats[i]));
  tempos.sort((a, b) => a - b);
  return {
    bpm: plan.drift > 0 ? tempos[tempos.length >> 1] : plan.bpm,
    beatsPerBar: STYLES[plan.style].beatsPerBar,
    beats: beats.slice(0, -1),
    bars: bars.map(({ number, start, beats: count }) => ({ number, start, beats: count })),
    phrases: spans((b) => b.phraseIndex).map((s) => ({ startBar: s.bar.number, start: s.bar.start, bars: s.bars })),
    sections: spans((b) => b.sectionIndex).map((s) => ({
      start: s.bar.start,
      end: startOf(s.bar.number + s.bars),
      startBar: s.bar.number,
      bars: s.bars,
      function: s.bar.section.function,
    })),
    events: events.filter(hears),
    inaudible: events.filter((e) => !hears(e)),
    irregularities: irregularities(plan, clock),
    key: { tonic: PITCH_CLASSES[plan.tonic], mode: plan.mode },
  };
}

/** What starts the track enters at bar 1; the end of the music is no exit; the ending of a phrase is neither. */
function layerEvents({ bars, beats }: Clock): LayerEvent[] {
  const events: LayerEvent[] = [];
  bars.forEach((bar, i) => {
    const before = bars[i - 1];
    for (const layer of LAYERS) {
      if (bar.has[layer] === (before?.has[layer] ?? false)) continue;
      const early = bar.phraseBar === 1 && earlyLayers(bar.phrase, before?.phrase).includes(layer);
      const beat = Math.max(0, bar.firstBeat - (early ? Math.min(bar.phrase.pickUp!.beats, before.beats) : 0));
      const at = beat < bar.firstBeat ? before : bar;
      events.push({ bar: at.number, time: beats[beat], layer, change: bar.has[layer] ? 'enters' : 'leaves' });
    }
  });
  return events.sort((a, b) => a.time - b.time);
}

function irregularities(plan: Plan, { bars, tempos }: Clock): PlantedIrregularity[] {
  const found: PlantedIrregularity[] = [];
  const add = (kind: IrregularityKind, bar: Bar | undefined, amount: number) => {
    if (bar) found.push({ kind, bar: bar.number, time: bar.start, amount });
  };
  const usual = STYLES[plan.style].beatsPerBar;
  bars.forEach((bar, i) => {
    const { phrase } = bar;
    if (bar.beats > usual) add('added-beats', bar, bar.beats - usual);
    if (bar.beats < usual) add('dropped-beats', bar, usual - bar.beats);
    if (i > 0 && tempos[bar.firstBeat] !== tempos[bar.firstBeat - 1]) add('tempo-change', bar, 0);
    if (bar.phraseBar !== 1) return;
    if (phrase.odd) add('odd-phrase', bar, phrase.bars);
    if (phrase.added > 0) add('added-bars', bars[i + plan.unit], phrase.added);
    if (phrase.added < 0) add('dropped-bars', bars[i + phrase.bars], -phrase.added);
    if (earlyLayers(phrase, bars[i - 1]?.phrase).length > 0) add('pick-up', bar, phrase.pickUp!.beats);
  });
  for (const run of runs(bars, (b) => b.phrase.halfTime)) add('half-time', run[0], run.length);
  for (const run of runs(bars, isBeatless))
    if (run.length >= LEAST_BEATLESS) add('beatless-passage', run[0], run.length);
  if (plan.drift > 0) add('drift', bars[0], 0);
  return found.sort((a, b) => a.bar - b.bar);
}

/** Nothing in it strikes: no drums, no bass, no chords but held ones. */
function isBeatless({ has, phrase }: Bar): boolean {
  return !has.kick && !has.percussion && !has.bass && !(has.harmony && phrase.manner !== 'held');
}

function runs(bars: readonly Bar[], test: (bar: Bar) => boolean): Bar[][] {
  const found: Bar[][] = [];
  bars.forEach((bar, i) => {
    if (!test(bar)) return;
    if (i > 0 && test(bars[i - 1])) found[found.length - 1].push(bar);
    else found.push([bar]);
  });
  return found;
}
