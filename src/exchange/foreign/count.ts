import { toStoredTime, type Bpm, type Seconds } from '../../units/index.js';
import { jamsBeats, jamsFirstOne, jamsPhrases, jamsSegments, jamsTempo } from '../jams/namespaces.js';
import type { Jams } from '../jams/read.js';
import type { MidiCount } from '../midi/read.js';

/**
 * What somebody else's file says about how a track is counted. What it does not say is `null` or empty.
 * @experimental
 */
export interface ForeignCount {
  readonly bpm: Bpm | null;
  readonly beatsPerBar: number | null;
  /** Ascending. */
  readonly beats: readonly Seconds[];
  /** The first beats of bars, ascending. */
  readonly downbeats: readonly Seconds[];
  /** Where the bar that it calls number 1 starts. */
  readonly firstOne: Seconds | null;
  readonly phrases: readonly Seconds[];
  /** In the file's own words. */
  readonly sections: readonly { readonly time: Seconds; readonly label: string }[];
}

/**
 * The count that JAMS annotations state: `beat_position` or else `beat`, `tempo`, `segment_open`. Bar 1 is where
 * `beat_position` numbers it; segments called "phrase …" are phrases, others sections.
 *
 * @experimental
 * @throws BarwiseError `damaged` for a value that its namespace does not allow
 */
export function countOfJams(jams: Jams): ForeignCount {
  const { beats, downbeats, beatsPerBar } = jamsBeats(jams) ?? { beats: [], downbeats: [], beatsPerBar: null };
  return {
    bpm: jamsTempo(jams),
    beatsPerBar,
    beats: stored(beats),
    downbeats: stored(downbeats),
    firstOne: firstOf(jamsFirstOne(jams)),
    phrases: stored((jamsPhrases(jams) ?? []).map((p) => p.start)),
    sections: (jamsSegments(jams) ?? []).map(({ start, label }) => ({ time: toStoredTime(start), label })),
  };
}

/**
 * The count of a Standard MIDI File whose first tick is the first sample of the track. Tempo and bars count as stated
 * only where the file holds tempo and time signature events: without them 120 BPM and 4/4 hold for any file. Markers are
 * sections ("First Verse" is the standard's own example), cue points called "phrase …" are phrases. Bar 1 is not
 * stated: every MIDI file begins with a bar 1, wherever the music does.
 * @experimental
 */
export function countOfMidi(midi: MidiCount): ForeignCount {
  const { beats, downbeats, marks, tempoStated, metreStated } = midi;
  const bars = metreStated && tempoStated ? downbeats : [];
  return {
    bpm: null,
    beatsPerBar: metreStated ? midi.beatsPerBar : null,
    beats: tempoStated ? stored(beats) : [],
    downbeats: stored(bars),
    firstOne: null,
    phrases: stored(marks.filter((m) => m.kind === 'cue point' && /^phrase\b/i.test(m.text)).map((m) => m.time)),
    sections: marks
      .filter((m) => m.kind === 'marker')
      .map(({ time, text }) => ({ time: toStoredTime(time), label: text })),
  };
}

/**
 * The same count some seconds later (earlier where negative); what would lie before the track is gone.
 * @experimental
 */
export function shifted(count: ForeignCount, by: Seconds): ForeignCount {
  const moved = (times: readonly Seconds[]) => stored(times.map((t) => t + by)).filter((t) => t >= 0);
  return {
    ...count,
    beats: moved(count.beats),
    downbeats: moved(count.downbeats),
    firstOne: count.firstOne === null ? null : firstOf(moved([count.firstOne])[0]),
    phrases: moved(count.phrases),
    sections: count.sections.map((s) => ({ ...s, time: toStoredTime(s.time + by) })).filter((s) => s.time >= 0),
  };
}

/** Rounded to 0.1 ms, halves up whatever the arithmetic has left of them; see `midi/tempo-map.ts`. */
function stored(times: readonly Seconds[]): Seconds[] {
  return times.map((t) => toStoredTime(t + 2e-9));
}

function firstOf(time: Seconds | null | undefined): Seconds | null {
  return time === undefined || time === null ? null : toStoredTime(time);
}
