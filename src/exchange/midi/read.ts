import { parseMidi, type MidiData, type MidiEvent } from 'midi-file';
import { BarwiseError, type Seconds } from '../../units/index.js';
import { tempoClock, type TempoStep } from './tempo-map.js';

/** What a Standard MIDI File says about the count of a piece. @public */
export interface MidiCount {
  readonly beats: readonly Seconds[];
  /** The first beat of every bar, after the time signatures. */
  readonly downbeats: readonly Seconds[];
  /** Beats of most bars. */
  readonly beatsPerBar: number;
  /** Whether the file holds tempo events; else 120 BPM are taken, as the standard says. */
  readonly tempoStated: boolean;
  /** Whether it holds time signatures; else 4/4 is taken. */
  readonly metreStated: boolean;
  /** Markers and cue points with their times. */
  readonly marks: readonly { readonly time: Seconds; readonly text: string; readonly kind: 'marker' | 'cue point' }[];
}

/** 120 beats a minute and 4/4 hold until a file says otherwise (Standard MIDI Files 1.0). */
const USUAL_TEMPO = 500_000;
/** More beats than eleven hours have at 300 BPM: only a damaged file has so many. */
const MOST_BEATS = 200_000;

interface Signature {
  readonly tick: number;
  readonly numerator: number;
  readonly denominator: number;
}

/**
 * Reads the tempo map, the time signatures and the marks of a Standard MIDI File. A beat is the denominator of the time
 * signature: in 6/8 there are six a bar.
 *
 * @public
 * @param name of the file, for messages
 * @throws BarwiseError `damaged` for what is no such file; `unsupported-format` for one that counts in film frames
 */
export function readMidi(bytes: Uint8Array, name = 'The MIDI file'): MidiCount {
  const midi = parsed(bytes, name);
  const division = midi.header.ticksPerBeat;
  if (!division)
    throw new BarwiseError(
      'unsupported-format',
      `${name} counts in film frames: save it with ticks per quarter note.`,
      {
        file: name,
      },
    );
  const placed = midi.tracks.flatMap(withTicks).sort((a, b) => a.tick - b.tick);
  const timeAt = tempoClock(steps(placed), division);
  const end = placed.at(-1)?.tick ?? 0;
  const beats: Seconds[] = [];
  const bars = new Map<number, number>();
  const downbeats: Seconds[] = [];
  const signatures = signaturesOf(placed);
  signatures.forEach(({ tick: from, numerator, denominator }, i) => {
    const to = signatures[i + 1]?.tick ?? end + 1;
    const step = (division * 4) / denominator;
    for (let k = 0; from + k * step < to && beats.length < MOST_BEATS; k++) {
      const time = timeAt(from + k * step);
      beats.push(time);
      if (k % numerator !== 0) continue;
      downbeats.push(time);
      bars.set(numerator, (bars.get(numerator) ?? 0) + 1);
    }
  });
  const marks = placed.flatMap(({ tick, event }) =>
    event.type === 'marker' || event.type === 'cuePoint'
      ? [
          {
            time: timeAt(tick),
            text: textOf(event.text),
            kind: event.type === 'marker' ? ('marker' as const) : ('cue point' as const),
          },
        ]
      : [],
  );
  const has = (type: MidiEvent['type']) => placed.some(({ event }) => event.type === type);
  return {
    beats,
    downbeats,
    beatsPerBar: [...bars].sort(([, a], [, b]) => b - a)[0]?.[0] ?? 4,
    tempoStated: has('setTempo'),
    metreStated: has('timeSignature'),
    marks,
  };
}

function parsed(bytes: Uint8Array, name: string): MidiData {
  try {
    if (!isWhole(bytes)) throw new RangeError('cut off');
    const midi = parseMidi(bytes);
    if (midi.tracks.length > 0) return midi;
  } catch {
    // The parser's own words are about its insides.
  }
  throw new BarwiseError('damaged', `${name} is not a readable Standard MIDI File: save it anew.`, { file: name });
}

/** Whether the file is made of chunks that all end within it; the parser reads on without a look at the end. */
function isWhole(bytes: Uint8Array): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 14 || view.getUint32(0) !== 0x4d54_6864) return false;
  let at = 0;
  while (at + 8 <= bytes.length) at += 8 + view.getUint32(at + 4);
  return at === bytes.length;
}

function withTicks(track: readonly MidiEvent[]): { tick: number; event: MidiEvent }[] {
  let tick = 0;
  return track.map((event) => ({ tick: (tick += event.deltaTime), event }));
}

type PlacedEvent = ReturnType<typeof withTicks>[number];

function steps(placed: readonly PlacedEvent[]): TempoStep[] {
  const found = placed.flatMap(({ tick, event }) =>
    event.type === 'setTempo' && event.microsecondsPerBeat > 0
      ? [{ tick, microseconds: event.microsecondsPerBeat }]
      : [],
  );
  return found[0]?.tick === 0 ? found : [{ tick: 0, microseconds: USUAL_TEMPO }, ...found];
}

function signaturesOf(placed: readonly PlacedEvent[]): Signature[] {
  const found = placed.flatMap(({ tick, event }) =>
    event.type === 'timeSignature' && event.numerator > 0 && event.denominator > 0
      ? [{ tick, numerator: event.numerator, denominator: event.denominator }]
      : [],
  );
  return found[0]?.tick === 0 ? found : [{ tick: 0, numerator: 4, denominator: 4 }, ...found];
}

function textOf(text: string): string {
  return Buffer.from(text, 'latin1').toString('utf8');
}
