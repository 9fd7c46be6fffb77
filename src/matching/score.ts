import type { Fraction } from '../units/index.js';
import type { TrackAnalysis } from '../track/index.js';
import { barAt, barStartingAt, type CountedBar, type TrackCount } from './count.js';
import type { ClashCount } from './clashes.js';
import { beatOfB, phraseAgreement, type Frame } from './frame.js';
import type { AlignedStretch } from './places.js';

/**
 * How much each part of a plan counts. Common practice, no source: phrases first, then the moments that meet, then
 * what can be mended by hand.
 */
const WEIGHTS = { moments: 0.34, start: 0.2, agreement: 0.12, before: 0.1, after: 0.06, sure: 0.5 } as const;
/** All of it, so that a plan with nothing against it comes to 1. */
const WHOLE = Object.values(WEIGHTS).reduce((sum, weight) => sum + weight, 0);
const PENALTIES = {
  voice: 0.5,
  bass: 0.08,
  ones: 0.6,
  irregular: 0.06,
  middle: 0.02,
  skipped: 0.3,
  early: 0.6,
  doubtful: 0.08,
  unheard: 0.04,
} as const;

/** Less than this share of A before B comes in leaves too much of it unheard. */
const HEARD_OF_A: Fraction = 0.4;

/** How good an overlap of so many bars is, before and after the change-over; between, a straight line. */
const BEFORE: readonly (readonly [number, Fraction])[] = [
  [0, 0.3],
  [4, 0.5],
  [8, 0.8],
  [16, 1],
  [32, 1],
  [48, 0.75],
  [96, 0.3],
];
const AFTER: readonly (readonly [number, Fraction])[] = [
  [0, 0.6],
  [4, 0.9],
  [8, 1],
  [16, 1],
  [32, 0.7],
  [64, 0.3],
];

/** What can be told of a plan before its clashes are looked for. */
export function quickScore(frame: Frame): Fraction {
  const { a, leaving, arriving, from, to } = frame;
  const beatsPerBar = a.analysis.metre.beatsPerBar;
  const bars = (beats: number) => beats / beatsPerBar;
  const skipped = (beatOfB(frame, from) - (frame.b.bars[0]?.firstBeat ?? 0)) / Math.max(1, frame.b.end);
  return (
    WEIGHTS.moments * Math.sqrt(leaving.weight * arriving.weight) +
    WEIGHTS.start * startFit(frame) +
    WEIGHTS.before * between(BEFORE, bars(leaving.beat - from)) +
    WEIGHTS.after * between(AFTER, bars(to - leaving.beat)) +
    WEIGHTS.sure * phrasesSure(frame) -
    (skipped > 0 ? PENALTIES.middle + PENALTIES.skipped * skipped : 0) -
    PENALTIES.doubtful * doubtfulPlaces(frame) -
    PENALTIES.early * Math.max(0, HEARD_OF_A - from / Math.max(1, a.end))
  );
}

/** The whole of it, 0 to 1. */
export function fullScore(
  frame: Frame,
  quick: Fraction,
  clashes: ClashCount,
  alignment: readonly AlignedStretch[],
  irregular: number,
): Fraction {
  const { agree, of } = phraseAgreement(frame);
  const bars = alignment.reduce((sum, s) => sum + s.toA - s.fromA + 1, 0);
  const apart = alignment.filter((s) => s.beats !== 0).reduce((sum, s) => sum + s.toA - s.fromA + 1, 0);
  const score =
    quick +
    WEIGHTS.agreement * (of === 0 ? 0.5 : agree / of) -
    PENALTIES.voice * clashes.voice -
    PENALTIES.bass * clashes.bass -
    PENALTIES.irregular * irregular -
    (clashes.unjudged > 0 ? PENALTIES.unheard : 0);
  return Math.min(1, Math.max(0, (score / WHOLE) * (1 - (bars === 0 ? 0 : PENALTIES.ones * (apart / bars)))));
}

/** Where B's phrase one falls in A's phrase: on its one, on its eighth bars, on a group one, or anywhere. */
function startFit(frame: Frame): Fraction {
  const bar = barStartingAt(frame.a, frame.from);
  if (bar === null) return frame.from >= frame.a.end ? 1 : 0;
  if (bar.startsSection !== null) return 1;
  if (bar.startsPhrase !== null) return somethingHappens(frame.a, bar.number) || evenlyBehind(bar) ? 0.9 : 0.5;
  if ((bar.phraseBar - 1) % 8 === 0) return 0.45;
  return bar.groupBar === 1 ? 0.3 : 0.1;
}

/** Whether layers come or go on a one: a phrase start that can be heard. */
function somethingHappens({ analysis }: TrackCount, bar: number): boolean {
  return analysis.events.some((event) => event.bar === bar);
}

/** A whole number of sixteen bars behind the start of its section: there the longer phrases start, too. */
function evenlyBehind({ number, section }: CountedBar): boolean {
  return section !== null && (number - section.startBar) % 16 === 0;
}

/** How many of the four places of a plan lie behind a phrase of irregular length. */
function doubtfulPlaces(frame: Frame): number {
  const { a, b, from, leaving, arriving } = frame;
  const inA = new Set([from, leaving.beat]);
  const inB = new Set([beatOfB(frame, from), arriving.beat]);
  return (
    [...inA].filter((beat) => behindIrregular(a, beat)).length +
    [...inB].filter((beat) => behindIrregular(b, beat)).length
  );
}

/** Whether a phrase start comes right behind a phrase of irregular length: it could also be counted elsewhere. */
function behindIrregular(count: TrackCount, beat: number): boolean {
  const bar = barStartingAt(count, beat);
  return bar?.startsPhrase != null && phraseOf(count.analysis, bar.phrase - 1)?.regular === false;
}

/** How sure the phrase starts are that the plan rests on: by the analysis, and by what bears them out. */
function phrasesSure(frame: Frame): Fraction {
  const { a, b, from, leaving, arriving } = frame;
  const places: [TrackCount, number][] = [
    [a, from],
    [a, leaving.beat],
    [b, beatOfB(frame, from)],
    [b, arriving.beat],
  ];
  const sure = places.map(([count, beat]) => supportAt(count, beat));
  return sure.reduce((product, value) => product * value, 1) ** (1 / sure.length);
}

/** Support of a place; the end of a record is as sure as that its last phrase is whole. */
function supportAt(count: TrackCount, beat: number): Fraction {
  const bar = barAt(count, Math.min(beat, count.end - 1));
  if (bar === null) return 0.5;
  const phrase = phraseOf(count.analysis, bar.phrase);
  if (beat >= count.end) return phrase?.regular === false ? 0.4 : 0.7;
  return (phrase?.confidence ?? 0.5) * (count.support[count.barOf[Math.floor(beat)]] ?? 0);
}

export function phraseOf({ phrases }: TrackAnalysis, number: number): TrackAnalysis['phrases'][number] | undefined {
  const guess = phrases[number - (phrases[0]?.number ?? 1)];
  return guess?.number === number ? guess : phrases.find((p) => p.number === number);
}

function between(points: readonly (readonly [number, Fraction])[], x: number): Fraction {
  const next = points.findIndex(([at]) => at >= x);
  if (next < 0) return points[points.length - 1][1];
  if (next === 0) return points[0][1];
  const [[x0, y0], [x1, y1]] = [points[next - 1], points[next]];
  return y0 + ((x - x0) / (x1 - x0)) * (y1 - y0);
}
