import type { MidiEvent } from 'midi-file';

/** An event and the tick it stands at. */
export interface Placed {
  readonly tick: number;
  readonly event: Omit<MidiEvent, 'deltaTime'>;
}
