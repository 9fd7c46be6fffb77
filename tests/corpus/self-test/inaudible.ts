import { renderBuses, type Arrangement, type ArrangementTruth } from '../../../src/arranger/index.js';
import { isAudible } from '../../second-band/audible.js';

type LayerEvent = ArrangementTruth['events'][number];

/**
 * The entries and exits that nobody can hear in an arrangement, by the rule of the second band (decision 10): a layer is heard
 * in the two bars after its entry (before its exit) or the event has no label.
 */
export function inaudibleEvents(arrangement: Arrangement): LayerEvent[] {
  const { truth, buses } = renderBuses(arrangement);
  const { kick, bass, voice, effects } = buses;
  const together = (a: Float32Array, b: Float32Array) => a.map((x, i) => x + b[i]);
  const stems = {
    kick,
    bass,
    voice,
    effects,
    drums: buses.room,
    tops: buses.drums,
    keys: together(buses.chords, buses.lead),
  };
  const twoBars = (2 * truth.beatsPerBar * 60) / truth.bpm;
  return truth.events.filter(({ time, layer, change }) =>
    change === 'enters'
      ? !isAudible(stems, layer, time, time + twoBars)
      : !isAudible(stems, layer, time - twoBars, time),
  );
}
