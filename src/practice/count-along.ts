import type { TrackAnalysis } from '../track/index.js';
import { BarwiseError, countLabel, type Fraction, type Lufs, type RunOptions, type Seconds } from '../units/index.js';
import { wordsOf, type Language } from '../wording/index.js';
import { HEARING_CAUTION, type Marker, type PracticeSound } from './files/marker.js';
import { master, type Level } from './mix/master.js';
import { mix, type MixerChoice } from './mix/mix.js';
import { addAt, clickTrack, type ClickBeat } from './sound/clicks.js';
import { speakNumbers } from './sound/spoken.js';
import { RATE, readStretch } from './sound/stereo.js';

/** What of a track is counted along, and how. @experimental */
export interface CountAlongOptions extends RunOptions {
  /** First and last bar (inclusive); default the whole track. */
  readonly bars?: readonly [number, number];
  /** How often the range is played; default 1. */
  readonly times?: number;
  /** Bars that are clicked before it starts; default 1. */
  readonly leadIn?: number;
  /** Level of the clicks against the track, 0 to 1; default 0.5. */
  readonly clicks?: Fraction;
  /** Whether the track sounds; default true. */
  readonly track?: boolean;
  /** The bar's number in its group is spoken on its one, in this language, instead of its click. */
  readonly spoken?: Language;
  readonly loudness?: Lufs;
  readonly mixer?: MixerChoice;
}

/** Room before the first beat for the part of a spoken number that comes before its own. */
const BEFORE_A_WORD: Seconds = 0.25;

/** Practice audio and what was measured of it. @experimental */
export interface Practice {
  readonly sound: PracticeSound;
  readonly level: Level;
  /** Sentences for the person: what could not be had and what took its place. */
  readonly notices: readonly string[];
}

/** Loudness of the track under clicks of full level: clicks must be heard over a track, so the track gives way. */
const UNDER_CLICKS = 0.8;

/**
 * The track with clicks: the one of a group, the one of a bar and the other beats all sound different.
 * @experimental
 * @param analysis of the file at `analysis.source.file`
 * @throws BarwiseError `bad-option`, `missing-package` for a spoken count without its voice, and those of reading the file
 */
export async function countAlong(analysis: TrackAnalysis, options: CountAlongOptions = {}): Promise<Practice> {
  const { times = 1, leadIn = 1, clicks = 0.5, track = true, spoken, mixer } = options;
  const bars = chosenBars(analysis, options.bars);
  const [first, last] = [bars[0], bars[bars.length - 1]];
  const start = first.start;
  const end = endOf(analysis, last.number);
  const beat = (endOf(analysis, first.number) - first.start) / first.beats;
  const room = spoken === undefined ? 0 : BEFORE_A_WORD;
  const lead = room + leadIn * analysis.metre.beatsPerBar * beat;
  const length = end - start;
  const frames = Math.ceil((lead + times * length + 1) * RATE);
  const beats = beatsOf(analysis, bars);
  const clicked = leadInBeats(analysis, leadIn, beat, first.groupBar).map((b) => ({ ...b, time: b.time + room }));
  const markers: Marker[] = leadIn > 0 ? [{ time: 0, label: 'count-in' }] : [];
  for (let round = 0; round < times; round++) {
    const shift = lead + round * length - start;
    clicked.push(...beats.map((b) => ({ ...b, time: b.time + shift })));
    markers.push(...phraseMarkers(analysis, bars, shift));
  }
  const sound = clickTrack(spoken === undefined ? clicked : clicked.filter((b) => b.beat !== 1), frames, 1);
  if (spoken !== undefined) {
    const voice = await speakNumbers([1, 2, 3, 4], spoken);
    for (const one of clicked.filter((b) => b.beat === 1)) {
      addAt(sound, voice.say(one.groupBar), one.time - voice.beatIn(one.groupBar), 0.9);
    }
  }
  const strands = [{ sound, whole: [{ time: 0, level: clicks }] }];
  if (track) {
    const whole = await readStretch(analysis.source.file, start, end, options);
    const looped = repeated(whole, Math.round(lead * RATE), times, frames, length);
    strands.push({ sound: looped, whole: [{ time: 0, level: UNDER_CLICKS }] });
  }
  const mixed = await mix(strands, frames, mixer);
  const level = master(mixed.sound, options.loudness);
  const title = `Count along: ${analysis.source.tags.title ?? analysis.source.file.replace(/^.*[/\\]/, '')}`;
  return {
    sound: { ...mixed.sound, title, comment: HEARING_CAUTION, markers },
    level,
    notices: mixed.notice === null ? [] : [mixed.notice],
  };
}

function chosenBars({ bars }: TrackAnalysis, range: readonly [number, number] | undefined) {
  const chosen = bars.filter((b) => range === undefined || (b.number >= range[0] && b.number <= range[1]));
  if (chosen.length > 0) return chosen;
  const known = bars.length === 0 ? 'it has none' : `it has bars ${bars[0].number} to ${bars[bars.length - 1].number}`;
  throw new BarwiseError('bad-option', `The track has no such bars: ${known}.`);
}

/** Where a bar ends. */
export function endOf({ bars, beats }: TrackAnalysis, number: number): Seconds {
  const next = bars.find((b) => b.number === number + 1);
  if (next) return next.start;
  const own = bars.find((b) => b.number === number);
  const last = beats.at(-1) ?? 0;
  const period = beats.length > 1 ? last - beats[beats.length - 2] : 0.5;
  return Math.max(last + period, own?.start ?? 0);
}

/** The beats of bars, each with its place. */
export function beatsOf({ beats }: TrackAnalysis, bars: readonly TrackAnalysis['bars'][number][]): ClickBeat[] {
  return bars.flatMap((bar) => {
    const first = beats.findIndex((t) => t > bar.start - 0.02);
    if (first < 0) return [];
    return beats.slice(first, first + bar.beats).map((time, i) => ({ time, beat: i + 1, groupBar: bar.groupBar }));
  });
}

/** A count-in at the tempo of the first bar, so numbered that it leads to the first bar's count. */
function leadInBeats({ metre }: TrackAnalysis, bars: number, beat: Seconds, groupBar: number): ClickBeat[] {
  return Array.from({ length: bars * metre.beatsPerBar }, (_, i) => {
    const before = bars - Math.floor(i / metre.beatsPerBar);
    return {
      time: i * beat,
      beat: (i % metre.beatsPerBar) + 1,
      groupBar: ((((groupBar - 1 - before) % 4) + 4) % 4) + 1,
    };
  });
}

function phraseMarkers(
  analysis: TrackAnalysis,
  bars: readonly TrackAnalysis['bars'][number][],
  shift: Seconds,
): Marker[] {
  const words = wordsOf('en');
  return bars
    .filter((bar, i) => i === 0 || bar.phraseBar === 1)
    .map((bar) => {
      const section = analysis.sections.find((s) => bar.number >= s.startBar && bar.number <= s.endBar);
      const name = section === undefined ? '' : `, ${words.functions[section.function]}`;
      return { time: bar.start + shift, label: `bar ${bar.number}${name} (${countLabel(bar.groupBar, 1)})` };
    });
}

function repeated(
  part: { left: Float32Array; right: Float32Array },
  at: number,
  times: number,
  frames: number,
  length: Seconds,
) {
  const out = { left: new Float32Array(frames), right: new Float32Array(frames) };
  for (let round = 0; round < times; round++) {
    const from = at + Math.round(round * length * RATE);
    out.left.set(part.left.subarray(0, Math.max(0, frames - from)), from);
    out.right.set(part.right.subarray(0, Math.max(0, frames - from)), from);
  }
  return out;
}
