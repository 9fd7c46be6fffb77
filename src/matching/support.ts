import type { AnalysisEvent, TrackAnalysis } from '../track/index.js';
import type { Fraction, Layer } from '../units/index.js';
import type { CountedBar } from './counted-bar.js';

/**
 * How much a layer that comes or goes says about where a phrase begins: kick and bass change on ones, a voice sings into
 * the next phrase. Common practice, no source.
 */
const TELLS: Readonly<Record<Layer, Fraction>> = { kick: 0.6, bass: 0.6, percussion: 0.4, harmony: 0.35, voice: 0.2 };

/** From here on a one is borne out by what is heard on it, and the ones between are measured by it. */
const BORNE_OUT: Fraction = 0.55;

/** What a phrase start is worth on which nothing is heard, by where it lies between the ones that are borne out. */
const BETWEEN = { sixteenth: 0.9, eighth: 0.65, uneven: 0.25 } as const;
/** And behind the last of them. */
const BEHIND = { sixteenth: 0.75, eighth: 0.6, uneven: 0.25 } as const;

/** What is left where a change is heard a bar beside the one instead; and where the count is broken on the way. */
const BESIDE: Fraction = 0.6;
const BROKEN: Fraction = 0.6;
/** And before the first sure boundary of a record that sets in with drums on less than a bar. */
const HALF_OPENING: Fraction = 0.35;

/** The counts of an analysis that a support needs. */
interface Counted {
  readonly analysis: TrackAnalysis;
  readonly bars: readonly CountedBar[];
}

/**
 * How well each bar is borne out as the start of a phrase by several kinds of evidence, 0 to 1: a section that begins
 * there, layers that come and go on it and not beside it, an even number of bars to the nearest such places.
 */
export function supportOf(counted: Counted): Fraction[] {
  const { analysis, bars } = counted;
  const offset = bars[0]?.number ?? 1;
  const heard = bars.map(() => 0);
  for (const event of analysis.events) {
    const i = event.bar - offset;
    if (i in heard) heard[i] = Math.min(1, heard[i] + worth(event));
  }
  const own = bars.map((bar, i) => ownSupport(counted, bar, i, heard));
  const anchors = own.flatMap((value, i) => (value >= BORNE_OUT ? [i] : []));
  const doubtful = halfOpening(counted, heard);
  return bars.map((_, i) => {
    const value = Math.max(own[i], evenness(i, anchors) * unbroken(counted, i, anchors) * clean(heard, i));
    return value * (i < doubtful ? HALF_OPENING : 1);
  });
}

/** What is heard on a bar itself. */
function ownSupport({ analysis }: Counted, bar: CountedBar, i: number, heard: readonly number[]): Fraction {
  if (i === 0) return bar.beats === analysis.metre.beatsPerBar ? 0.9 : 0.5;
  if (bar.startsPhrase === null) return 0;
  const section = 0.85 * (bar.startsSection === null ? 0 : (bar.startsSection.confidence ?? 0.5));
  const events = 0.8 * heard[i];
  return (1 - (1 - section) * (1 - events)) * clean(heard, i);
}

/** Whether what is heard about a one is heard on it. */
function clean(heard: readonly number[], i: number): Fraction {
  return Math.max(heard[i - 1] ?? 0, heard[i + 1] ?? 0) > Math.max(0.3, heard[i]) ? BESIDE : 1;
}

/** Percussion rings on behind its last bar, so that its leaving tells little. */
function worth({ layer, change, confidence }: AnalysisEvent): number {
  return TELLS[layer] * (layer === 'percussion' && change === 'leaves' ? 0.3 : 1) * (0.4 + 0.6 * (confidence ?? 0.5));
}

/** Whether a one lies a whole number of phrases from those that are borne out on both sides. */
function evenness(i: number, anchors: readonly number[]): Fraction {
  const before = anchors.findLast((at) => at < i);
  const after = anchors.find((at) => at > i);
  if (before === undefined && after === undefined) return BEHIND.uneven;
  const [from, worths] =
    before === undefined || after === undefined ? ([before ?? after, BEHIND] as const) : ([before, BETWEEN] as const);
  const steps = [i - from!, ...(after === undefined ? [] : [after - i])];
  if (steps.every((step) => step % 16 === 0)) return worths.sixteenth;
  return steps.every((step) => step % 8 === 0) ? worths.eighth : worths.uneven;
}

/** What breaks the count between a one and the nearest that is borne out before it. */
function unbroken({ analysis, bars }: Counted, i: number, anchors: readonly number[]): Fraction {
  const from = bars[anchors.findLast((at) => at <= i) ?? 0]?.number ?? 1;
  const breaks = analysis.irregularities.some(
    ({ kind, bar }) => /^(added|dropped|odd)/.test(kind) && bar >= from && bar <= bars[i].number,
  );
  return breaks ? BROKEN : 1;
}

/**
 * A record that sets in with its drums on less than a whole bar is likely to have lost or gained beats further on:
 * the bars up to its first sure boundary are in doubt.
 * @returns how many bars
 */
function halfOpening({ analysis, bars }: Counted, heard: readonly number[]): number {
  if (bars.length === 0 || bars[0].beats === analysis.metre.beatsPerBar || heard[0] < 0.3) return 0;
  const sure = bars.findIndex((bar, i) => i > 0 && heard[i] >= 0.4 && (bar.startsSection?.confidence ?? 0) >= 0.9);
  return sure < 0 ? bars.length : sure;
}
