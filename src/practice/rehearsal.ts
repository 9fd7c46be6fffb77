import type { MatchPlan, TrackMatch } from '../matching/index.js';
import type { TrackAnalysis } from '../track/index.js';
import { BarwiseError, type Fraction, type Lufs, type RunOptions, type Seconds } from '../units/index.js';
import type { Practice } from './count-along.js';
import { HEARING_CAUTION, type Marker } from './files/marker.js';
import { master } from './mix/master.js';
import { mix, type MixerChoice } from './mix/mix.js';
import type { Strand } from './mix/graph.js';
import { handover, type FadeShape } from './mix/handover.js';
import { layOutRehearsal, type RehearsalClock } from './rehearsal-clock.js';
import { clickTrack } from './sound/clicks.js';
import { RATE, readStretch, type Stereo } from './sound/stereo.js';
import { delayed, inTime, type TimeMap } from './sound/time-map.js';
import { varispeed } from './sound/varispeed.js';
import { stretched } from './stretch/stretch.js';

/**
 * How far off B starts, for the ear: not at all, a beat, a bar, a group of four bars, or a phrase of A too late.
 * @experimental
 */
export const CONTRASTS = ['right', 'beat', 'bar', 'group', 'phrase'] as const;
/** One of `CONTRASTS`. @experimental */
export type Contrast = (typeof CONTRASTS)[number];

/** How a plan is made into sound. @experimental */
export interface RehearsalOptions extends RunOptions {
  /** Keeps the pitch of a record whose tempo is changed; default false. */
  readonly keyLock?: boolean;
  /** Bars of A before B starts and of B after A is out; default 8. */
  readonly around?: number;
  /** Default `swap`: B comes in without its bass, which is swapped as B takes over. */
  readonly fade?: FadeShape;
  /** Level of clicks on A's count; 0, the default, leaves them out. */
  readonly clicks?: Fraction;
  readonly contrast?: Contrast;
  readonly loudness?: Lufs;
  readonly mixer?: MixerChoice;
}

/** A rehearsal: sound, and the clock by which it was made. @experimental */
export interface Rehearsal extends Practice {
  readonly clock: RehearsalClock;
}

/** Room that a record's filter and stretching look ahead and back. */
const MARGIN: Seconds = 1;

/**
 * Renders a plan: both records at the matched tempo on one count, with crossfade and bass swap.
 * @experimental
 * @param a the analysis of the file that plays
 * @param b the analysis of the file that comes in
 * @param match both on one count, by `matchTracks`
 * @param plan one of its plans
 * @throws BarwiseError `bad-option` for a plan without an overlap, `missing-package`, `aborted`, and those of reading files
 */
export async function rehearse(
  a: TrackAnalysis,
  b: TrackAnalysis,
  match: TrackMatch,
  plan: MatchPlan,
  options: RehearsalOptions = {},
): Promise<Rehearsal> {
  if (plan.kind === 'cut') {
    throw new BarwiseError(
      'bad-option',
      'This plan has no overlap to rehearse: choose records whose tempos and metres meet.',
    );
  }
  const { keyLock = false, fade = 'swap', clicks = 0, contrast = 'right' } = options;
  const clock = layOutRehearsal(a, b, match, plan, options.around ?? 8);
  const late = lateBy(contrast, a, match);
  const frames = Math.ceil((clock.length + late) * RATE);
  const [soundA, soundB] = await Promise.all([
    played(a.source.file, clock.mapA, frames, match.tempo.rateA, keyLock, options),
    played(b.source.file, delayed(clock.mapB, late), frames, match.tempo.rateB, keyLock, options),
  ]);
  const gains = match.loudness ?? { gainA: 0, gainB: 0 };
  const shape = handover(fade, {
    start: clock.start + late,
    swap: clock.swap + late,
    out: clock.out,
    beat: clock.beat,
  });
  const strands: Strand[] = [
    { sound: soundA, ...scaled(shape.a, gains.gainA) },
    { sound: soundB, ...scaled(shape.b, gains.gainB) },
  ];
  if (clicks > 0) strands.push({ sound: clickTrack(clock.beatsA, frames), whole: [{ time: 0, level: clicks }] });
  const mixed = await mix(strands, frames, options.mixer);
  const level = master(mixed.sound, options.loudness);
  return {
    sound: {
      ...mixed.sound,
      title: titleOf(contrast),
      comment: HEARING_CAUTION,
      markers: markersOf(clock, plan, late),
    },
    level,
    notices: mixed.notice === null ? [] : [mixed.notice],
    clock,
  };
}

/** How much later B starts in a contrast. @experimental */
export function lateBy(contrast: Contrast, a: TrackAnalysis, { tempo }: TrackMatch): Seconds {
  const beat = 60 / tempo.bpm;
  const bar = beat * a.metre.beatsPerBar;
  return { right: 0, beat, bar, group: 4 * bar, phrase: a.phraseBars * bar }[contrast];
}

/** A record through its time map; as it is where its speed does not change. */
async function played(
  file: string,
  map: TimeMap,
  frames: number,
  rate: number,
  keyLock: boolean,
  options: RunOptions,
): Promise<Stereo> {
  const [from, to] = [inTime(map, 0) - MARGIN, inTime(map, frames / RATE) + MARGIN];
  const first = Math.round(from * RATE) / RATE;
  const record = await readStretch(file, first, to, options);
  if (keyLock && Math.abs(rate - 1) > 1e-4) return stretched(record, first, map, frames, options);
  const ahead = (inTime(map, 0) - first) * RATE;
  if (rate === 1 && map.length === 2 && Math.abs(ahead - Math.round(ahead)) < 1e-6) {
    const from = Math.round(ahead);
    return { left: record.left.slice(from, from + frames), right: record.right.slice(from, from + frames) };
  }
  return varispeed(record, first, map, frames);
}

function scaled(level: Omit<Strand, 'sound'>, gain: number): Omit<Strand, 'sound'> {
  const factor = 10 ** (gain / 20);
  const times = (envelope: Strand['whole']) => envelope.map((p) => ({ time: p.time, level: p.level * factor }));
  return {
    whole: times(level.whole),
    ...(level.withoutBass === undefined ? {} : { withoutBass: times(level.withoutBass) }),
  };
}

function titleOf(contrast: Contrast): string {
  const off = {
    right: '',
    beat: ', a beat off',
    bar: ', a bar off',
    group: ', four bars off',
    phrase: ', a phrase off',
  };
  return `Rehearsal${off[contrast]}`;
}

function markersOf(clock: RehearsalClock, plan: MatchPlan, late: Seconds): Marker[] {
  const { start, meet, end } = plan;
  return [
    { time: 0, label: `A alone, from bar ${clock.firstBarA}` },
    { time: clock.start + late, label: `B starts at its bar ${start.b.bar}, on A's bar ${start.a.bar}` },
    { time: clock.swap + late, label: `B leads from its bar ${meet.b.bar}, on A's bar ${meet.a.bar}` },
    ...(clock.out > clock.swap + late ? [{ time: clock.out, label: `A is out, at its bar ${end.a.bar}` }] : []),
  ].sort((x, y) => x.time - y.time);
}
