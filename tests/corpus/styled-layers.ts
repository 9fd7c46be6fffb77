import type { TimedLayer } from '../../src/evaluation/index.js';
import { LAYERS, type Layer } from '../../src/units/index.js';

/** When a track of a score begins or stops playing, as tests/corpus/build/structure.py writes it. */
export interface Entry {
  readonly time: number;
  readonly role: string;
  readonly kind: 'enter' | 'exit';
}

/** Roles of a song's tracks that make each layer. */
export const LAYER_ROLES: Readonly<Record<Layer, readonly string[]>> = {
  kick: ['kick'],
  bass: ['bass'],
  percussion: ['snare', 'hats', 'drums'],
  harmony: ['pad', 'keys', 'guitar', 'pluck', 'lead'],
  voice: ['vocals'],
};

/** A layer enters with the first of its tracks and leaves with the last. */
export function layerEvents(entries: readonly Entry[]): TimedLayer[] {
  return LAYERS.flatMap((layer) => {
    const own = entries.filter((e) => LAYER_ROLES[layer].includes(e.role));
    const times = [...new Set(own.map((e) => e.time))].sort((a, b) => a - b);
    let playing = 0;
    return times.flatMap((time): TimedLayer[] => {
      const before = playing;
      for (const e of own) if (e.time === time) playing += e.kind === 'enter' ? 1 : -1;
      if (before > 0 === playing > 0) return [];
      return [{ time, layer, change: playing > 0 ? 'enters' : 'leaves' }];
    });
  });
}
