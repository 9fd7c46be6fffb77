import type { ArrangementTruth } from '../../src/arranger/index.js';
import type { MatchPlan, TrackMatch } from '../../src/matching/index.js';
import type { Layer, Seconds } from '../../src/units/index.js';

/** What the truth about two arranged tracks says of a plan; nothing here looks at an analysis. */
export interface PlanVerdict {
  /** B's start: a phrase start of the truth in both records; and an eight-bar line counted from one. */
  readonly phraseOnPhrase: boolean;
  readonly eightBarLine: boolean;
  /** B arrives on a section start of A; or on a phrase start at which a layer of A comes or goes; or as A ends. */
  readonly onSection: boolean;
  readonly onBoundary: boolean;
  /** B's arrival is a section start of B, or a phrase start at which a layer of B enters. */
  readonly arrival: boolean;
  /** Bars with two basses or two voices that no remark covers. */
  readonly silentClashes: number;
  /** For bass and for voices: whether two of them meet, whether that is told, and whether it is told as possible alone. */
  readonly clashes: Readonly<
    Record<'bass' | 'voice', { readonly real: boolean; readonly told: 'surely' | 'perhaps' | 'not' }>
  >;
}

/** Beats are found within this of the truth: the window of the beat F-measure (mir_eval `beat`; Davies et al. 2009). */
const WINDOW: Seconds = 0.07;

/** A bar by its number, as the plan counts A: remarks name bars, and this tells what time they mean. */
export type PlanBars = readonly { readonly number: number; readonly start: Seconds }[];

/** Judges a plan by the truth about both tracks. */
export function judgePlan(
  a: ArrangementTruth,
  b: ArrangementTruth,
  match: TrackMatch,
  plan: MatchPlan,
  barsOfA: PlanBars,
): PlanVerdict {
  const layers = {
    bass: clashesOf('bass', a, b, match, plan, barsOfA),
    voice: clashesOf('voice', a, b, match, plan, barsOfA),
  };
  const { start, meet } = plan;
  const near = (times: readonly Seconds[], time: Seconds) => times.some((t) => Math.abs(t - time) < WINDOW);
  const endA = a.beats[a.beats.length - 1] + 60 / a.bpm;
  const phrases = (t: ArrangementTruth) => t.phrases.map((p) => p.start);
  const sections = (t: ArrangementTruth) => t.sections.map((s) => s.start);
  const audible = (t: ArrangementTruth, change?: 'enters') =>
    phrases(t).filter((time) =>
      t.events.some((e) => Math.abs(e.time - time) < WINDOW && (change === undefined || e.change === change)),
    );
  const onSection = near([...sections(a), endA], meet.a.time);
  return {
    phraseOnPhrase: near([...phrases(a), endA], start.a.time) && near(phrases(b), start.b.time),
    eightBarLine: near([...eightBarLines(a), endA], start.a.time) && near(eightBarLines(b), start.b.time),
    onSection,
    onBoundary: onSection || near(audible(a), meet.a.time),
    arrival: near([...sections(b), ...audible(b, 'enters')], meet.b.time),
    silentClashes: layers.bass.silent + layers.voice.silent,
    clashes: layers,
  };
}

/** Starts of every eighth bar of each phrase. */
function eightBarLines({ phrases, bars }: ArrangementTruth): Seconds[] {
  return phrases.flatMap(({ startBar, bars: length }) =>
    bars
      .filter((bar) => bar.number >= startBar && bar.number < startBar + length && (bar.number - startBar) % 8 === 0)
      .map((bar) => bar.start),
  );
}

const CLASH = ['layer-clash', 'layer-may-clash', 'layer-unjudged'];

function clashesOf(
  layer: 'bass' | 'voice',
  a: ArrangementTruth,
  b: ArrangementTruth,
  { tempo }: TrackMatch,
  plan: MatchPlan,
  barsOfA: PlanBars,
) {
  const speed = (b.bpm > 0 ? 60 / b.bpm : 1) / (60 / a.bpm);
  const remarks = plan.cautions.filter((c) => CLASH.includes(c.kind) && 'layer' in c && c.layer === layer);
  const real = a.bars.filter((bar) => {
    if (bar.start < plan.start.a.time - WINDOW || bar.start >= plan.end.a.time - WINDOW) return false;
    const middle = bar.start + 90 / a.bpm;
    const inB = plan.meet.b.time + (middle - plan.meet.a.time) * speed * tempo.ratio;
    return plays(a, layer, middle) && plays(b, layer, inB);
  });
  const told = (bar: { readonly start: Seconds }) =>
    remarks.some((c) => c.kind === 'layer-unjudged' || ('fromA' in c && within(bar.start, c, a, barsOfA)));
  return {
    real: real.length > 0,
    silent: real.filter((bar) => !told(bar)).length,
    told: remarks.length === 0 ? 'not' : remarks.some((c) => c.kind === 'layer-clash') ? 'surely' : 'perhaps',
  } as const;
}

/** Whether a bar of the truth lies in the stretch that a remark names, a bar more or less: presences are fitted bar by bar. */
function within(
  time: Seconds,
  { fromA, toA }: { readonly fromA: number; readonly toA: number },
  a: ArrangementTruth,
  barsOfA: PlanBars,
): boolean {
  const bar = (60 / a.bpm) * a.beatsPerBar;
  const startOf = (number: number) => barsOfA.find((b) => b.number === number)?.start ?? Infinity;
  return time > startOf(fromA) - 1.5 * bar && time < startOf(toA) + 1.5 * bar;
}

function plays(truth: ArrangementTruth, layer: Layer, time: Seconds): boolean {
  if (time < truth.beats[0] || time > truth.beats[truth.beats.length - 1]) return false;
  return truth.events.findLast((e) => e.layer === layer && e.time <= time + 1e-6)?.change === 'enters';
}
