import { writeMidi, type MidiEvent } from 'midi-file';
import type { TrackAnalysis } from '../../track/index.js';
import { printable, type Seconds } from '../../units/index.js';
import { clickEvents } from './click.js';
import type { Placed } from './placed.js';
import { tempoMap } from './tempo-map.js';

/**
 * Ticks a quarter note: a tick of a beat at 120 BPM is half a millisecond, and eighths, triplets and sixteenths are whole.
 * @public
 */
export const DIVISION = 960;

/** What goes into a MIDI file beside the tempo map. @public */
export interface MidiOptions {
  /** A second track that strikes every beat, other on the one of a bar and of a group. Default true. */
  readonly click?: boolean;
}

/**
 * The count of a track as a Standard MIDI File of format 1: tempo map, a time signature wherever bars change length,
 * sections as markers, phrases as cue points. Tick 0 is the first sample of the audio; what lies before the first beat
 * is a bar of its own. Beats are within 50 µs of their times however long the track is, so that they are read back as the same to 0.1 ms.
 *
 * @public
 * @throws RangeError for a track without beats
 */
export function toMidi(analysis: TrackAnalysis, { click = true }: MidiOptions = {}): Uint8Array {
  const beats = countedBeats(analysis);
  if (beats.length < 2) throw new RangeError('A track without beats has no tempo map.');
  const lead = leadBeats(beats);
  const times = [...lead, ...beats];
  const tickOfBeat = (beat: number) => (beat + lead.length) * DIVISION;
  const conductor = [
    ...tempoMap(times, DIVISION, Math.round(60e6 / analysis.tempo.bpm)).map(({ tick, microseconds }): Placed => ({
      tick,
      event: { type: 'setTempo', microsecondsPerBeat: microseconds } as Placed['event'],
    })),
    ...timeSignatures(analysis, lead.length),
    ...marks(analysis, beats, tickOfBeat),
  ];
  const title = analysis.source.tags.title ?? '';
  const tracks = [asTrack(conductor, title), ...(click ? [asTrack(clickEvents(analysis, tickOfBeat), 'Click')] : [])];
  return Uint8Array.from(
    writeMidi({ header: { format: 1, numTracks: tracks.length, ticksPerBeat: DIVISION }, tracks }),
  );
}

/** Every beat of every bar, and the moment at which the last one ends. */
function countedBeats({ beats, bars }: TrackAnalysis): Seconds[] {
  const counted = beats.filter((time) => bars.length === 0 || time >= bars[0].start - 1e-4);
  const n = counted.length;
  return n < 2 ? counted : [...counted, 2 * counted[n - 1] - counted[n - 2]];
}

/** Beats that fill what lies before the first, as near to its tempo as whole beats come. */
function leadBeats(beats: readonly Seconds[]): Seconds[] {
  const length = beats[0];
  if (length < 1e-4) return [];
  const count = Math.max(1, Math.round(length / (beats[1] - beats[0])));
  return Array.from({ length: count }, (_, i) => (length * i) / count);
}

/** One where the audio starts, one wherever a bar has another number of beats than the one before. */
function timeSignatures({ bars }: TrackAnalysis, lead: number): Placed[] {
  const placed: Placed[] = [];
  const sign = (tick: number, beats: number) =>
    placed.push({
      tick,
      event: {
        type: 'timeSignature',
        numerator: beats,
        denominator: 4,
        metronome: 24,
        thirtyseconds: 8,
      } as Placed['event'],
    });
  if (lead > 0) sign(0, lead);
  let beat = lead;
  let before = lead > 0 ? lead : 0;
  for (const bar of bars) {
    if (bar.beats !== before) sign(beat * DIVISION, bar.beats);
    before = bar.beats;
    beat += bar.beats;
  }
  return placed;
}

function marks(analysis: TrackAnalysis, beats: readonly Seconds[], tickOfBeat: (beat: number) => number): Placed[] {
  const at = (time: Seconds) => tickOfBeat(nearest(beats, time));
  const text = (type: 'marker' | 'cuePoint' | 'text', time: Seconds, words: string): Placed => ({
    tick: at(time),
    event: { type, text: bytesOf(words) } as Placed['event'],
  });
  return [
    ...analysis.sections.map((s) => text('marker', s.start, s.function)),
    ...analysis.phrases.map((p) => text('cuePoint', p.start, `phrase ${p.number}, ${p.bars} bars`)),
    ...analysis.irregularities.map((i) => text('text', i.time, i.explanation)),
  ];
}

function nearest(beats: readonly Seconds[], time: Seconds): number {
  let best = 0;
  for (let i = 1; i < beats.length; i++) if (Math.abs(beats[i] - time) < Math.abs(beats[best] - time)) best = i;
  return best;
}

/** In the order of their ticks, each with the time since the one before; a name first and an end last. */
function asTrack(placed: readonly Placed[], name: string): MidiEvent[] {
  let last = 0;
  const events = placed
    .toSorted((a, b) => a.tick - b.tick)
    .map(({ tick, event }) => {
      const deltaTime = tick - last;
      last = tick;
      return { ...event, deltaTime } as MidiEvent;
    });
  return [{ deltaTime: 0, type: 'trackName', text: bytesOf(name) }, ...events, { deltaTime: 0, type: 'endOfTrack' }];
}

/** The writer puts one byte where there is one character: texts go in as UTF-8, without what would steer a list. */
function bytesOf(text: string): string {
  return Buffer.from(printable(text), 'utf8').toString('latin1');
}
