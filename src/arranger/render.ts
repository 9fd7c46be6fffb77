import type { Frames, Hertz, RunOptions } from '../units/index.js';
import { throwIfAborted } from '../units/index.js';
import type { Arrangement } from './arrangement.js';
import { createKit } from './kit.js';
import { cornerCurve, duckCurve } from './mix/controls.js';
import { mixDown } from './mix/desk.js';
import type { Channel, Tap } from './mix/desk.js';
import { createFeed } from './mix/feed.js';
import type { Stereo } from './mix/feed.js';
import { createDuck, createEcho, createSweep } from './mix/inserts.js';
import type { Insert } from './mix/inserts.js';
import { finish } from './mix/master.js';
import { createReverb } from './mix/reverb.js';
import { BUSES } from './patterns/view.js';
import type { Bus } from './patterns/view.js';
import { seededRandom } from './random.js';
import { writeScore } from './score.js';
import { RATE } from './sound/shot.js';
import { STYLE_TABLE } from './styles.js';
import { layOut } from './timeline.js';
import type { Timeline } from './timeline.js';
import type { ArrangementTruth } from './truth.js';
import { truthOf } from './truth-of.js';

/** A rendered track: two channels at 44.1 kHz and the truth about them. */
export interface Rendering {
  readonly sampleRate: Hertz;
  readonly left: Float32Array;
  readonly right: Float32Array;
  readonly truth: ArrangementTruth;
}

/** What each bus plays, alone: mono, before reverberation and mastering, at its level in the mix. */
export type BusSignals = Readonly<Record<Bus, Float32Array>>;

/** Room for what rings on after the last beat, in seconds. */
const TAIL = 2.5;

interface BusSettings {
  /** Level into the reverberation. */
  readonly wet: number;
  /** Share of the ducking of the style. */
  readonly duck: number;
  readonly filtered: boolean;
  /** Echo: delay in beats and feedback. */
  readonly echo: readonly [beats: number, feedback: number] | null;
}

/** How far the balance of a track may depart from the settings, in decibels either way. */
const BALANCE: Readonly<Record<Bus, number>> = {
  kick: 1,
  drums: 2.5,
  room: 2,
  bass: 1.5,
  chords: 2,
  lead: 2,
  voice: 1.5,
  effects: 3,
};

const SETTINGS: Readonly<Record<Bus, BusSettings>> = {
  kick: { wet: 0, duck: 0, filtered: false, echo: null },
  drums: { wet: 0.05, duck: 0.15, filtered: false, echo: null },
  room: { wet: 0.16, duck: 0, filtered: false, echo: null },
  bass: { wet: 0, duck: 1, filtered: false, echo: null },
  chords: { wet: 0.2, duck: 0.9, filtered: true, echo: null },
  lead: { wet: 0.22, duck: 0.6, filtered: true, echo: [0.75, 0.36] },
  voice: { wet: 0.24, duck: 0.3, filtered: false, echo: [1.5, 0.22] },
  effects: { wet: 0.25, duck: 0.5, filtered: false, echo: null },
};

/** Beats of build-ups without a kick: there the music keeps ducking as if it were still playing. */
function silentPumps(timeline: Timeline): Frames[] {
  return timeline.bars.flatMap((bar) => {
    const { plan } = timeline.phrases[bar.phrase];
    if (plan.function !== 'build-up' || plan.has.kick) return [];
    return Array.from({ length: bar.beats }, (_, beat) => Math.round(timeline.times[bar.firstBeat + beat] * RATE));
  });
}

/**
 * Renders an arrangement: club music with known beats, bars, phrases, sections, layers and irregularities. The same
 * arrangement gives the same samples. No sample exceeds 0.84 (−1.5 dBFS).
 * @throws BarwiseError `bad-option` for an arrangement without bars or with an impossible tempo; `aborted`.
 */
export function renderArrangement(arrangement: Arrangement, options: RunOptions = {}): Rendering {
  return render(arrangement, options);
}

/** The same with each bus alone beside it: what tells whether a layer can be heard. Takes half a gigabyte for a long track. */
export function renderBuses(
  arrangement: Arrangement,
  options: RunOptions = {},
): Rendering & { readonly buses: BusSignals } {
  const buses = {} as Record<Bus, Float32Array>;
  return { ...render(arrangement, options, buses), buses };
}

function render(arrangement: Arrangement, options: RunOptions, buses?: Record<Bus, Float32Array>): Rendering {
  const timeline = layOut(arrangement);
  const style = STYLE_TABLE[arrangement.style];
  const frames: Frames = Math.ceil((timeline.times[timeline.times.length - 1] + TAIL) * RATE);
  const score = writeScore(arrangement, timeline, createKit(style, seededRandom(arrangement.seed).fork('kit')));
  const beat = (60 / arrangement.bpm) * RATE;
  const corner = cornerCurve(timeline, frames);
  const kicks = [...score.kick.map((hit) => hit.frame), ...silentPumps(timeline)];
  const duck = duckCurve(kicks, Math.min(0.75 * beat, 0.4 * RATE), frames);
  const master: Stereo = { left: new Float32Array(frames), right: new Float32Array(frames) };
  const balance = seededRandom(arrangement.seed).fork('balance');
  const channels = BUSES.map((name): Channel => {
    const settings = SETTINGS[name];
    const inserts: Insert[] = [];
    if (settings.filtered) inserts.push(createSweep(corner, 0.8));
    if (settings.echo) inserts.push(createEcho(Math.round(settings.echo[0] * beat), settings.echo[1]));
    if (settings.duck > 0) inserts.push(createDuck(duck, settings.duck * style.duck));
    return {
      feed: createFeed(score[name]),
      inserts,
      gain: 10 ** (balance.between(-BALANCE[name], BALANCE[name]) / 20),
      wet: settings.wet,
    };
  });
  const onChunk = (done: number) => {
    throwIfAborted(options.signal);
    options.onProgress?.({ stage: 'render', done: 0.9 * done });
  };
  if (buses) for (const name of BUSES) buses[name] = new Float32Array(frames);
  const alone: Tap = (channel, { left, right }, start, length, gain) => {
    const own = buses![BUSES[channel]];
    for (let i = 0; i < length; i++) own[start + i] = 0.5 * gain * (left[i] + right[i]);
  };
  mixDown(channels, createReverb(style.room), master, onChunk, buses && alone);
  finish(master, style.drive);
  options.onProgress?.({ stage: 'render', done: 1 });
  return { sampleRate: RATE, left: master.left, right: master.right, truth: truthOf(arrangement, timeline) };
}
