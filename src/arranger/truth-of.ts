import { LAYERS } from '../units/index.js';
import type { Bpm, Layer } from '../units/index.js';
import type { Arrangement } from './arrangement.js';
import { plantedIrregularities } from './irregularities.js';
import { layOut } from './timeline.js';
import type { Timeline } from './timeline.js';
import type { ArrangementTruth } from './truth.js';

type LayerEventTruth = ArrangementTruth['events'][number];

/**
 * Layer entries and exits, phrase by phrase; fills and rolls at the end of a phrase are none. A layer with a pick-up
 * enters where the pick-up starts. What starts the track enters at bar 1; the end of the music is no exit.
 */
function layerEvents(timeline: Timeline): LayerEventTruth[] {
  const events: LayerEventTruth[] = [];
  let before: Readonly<Record<Layer, boolean>> | null = null;
  for (const { plan, startBar } of timeline.phrases) {
    const first = timeline.bars[startBar - 1];
    for (const layer of LAYERS) {
      if (plan.has[layer] === (before?.[layer] ?? false)) continue;
      const early = plan.has[layer] && plan.pickUp?.layers.includes(layer) ? plan.pickUp.beats : 0;
      const beat = Math.max(0, first.firstBeat - early);
      const bar = timeline.bars.findLast((candidate) => candidate.firstBeat <= beat)!;
      events.push({
        bar: bar.number,
        time: timeline.times[beat],
        layer,
        change: plan.has[layer] ? 'enters' : 'leaves',
      });
    }
    before = plan.has;
  }
  return events.sort((a, b) => a.time - b.time);
}

/** Median of the tempos that the beats really have. */
function medianTempo(times: Float64Array): Bpm {
  const tempos = times.slice(1).map((time, i) => 60 / (time - times[i]));
  tempos.sort();
  return tempos[tempos.length >> 1];
}

/** The truth of a timeline. */
export function truthOf(arrangement: Arrangement, timeline: Timeline): ArrangementTruth {
  const { times, bars, phrases } = timeline;
  const endOf = (bar: number): number => times[bar < bars.length ? bars[bar].firstBeat : times.length - 1];
  const sections = arrangement.parts.flatMap((part, index) => {
    const own = phrases.filter((phrase) => phrase.part === index);
    if (own.length === 0) return [];
    const startBar = own[0].startBar;
    const length = own.reduce((sum, phrase) => sum + phrase.plan.bars, 0);
    const start = bars[startBar - 1].start;
    return [{ start, end: endOf(startBar - 1 + length), startBar, bars: length, function: part.function }];
  });
  return {
    bpm: arrangement.drift === undefined ? arrangement.bpm : medianTempo(times),
    beatsPerBar: arrangement.beatsPerBar,
    beats: Array.from(times.subarray(0, times.length - 1)),
    bars: bars.map(({ number, start, beats }) => ({ number, start, beats })),
    phrases: phrases.map(({ plan, startBar }) => ({ startBar, start: bars[startBar - 1].start, bars: plan.bars })),
    sections,
    events: layerEvents(timeline),
    irregularities: plantedIrregularities(arrangement, timeline),
    key: arrangement.key,
  };
}

/** The truth of an arrangement without rendering it. */
export function arrangementTruth(arrangement: Arrangement): ArrangementTruth {
  return truthOf(arrangement, layOut(arrangement));
}
