import type { Fraction } from '../units/index.js';
import { BARS_IN_GROUP } from '../units/index.js';
import type { Evidence, Grid } from '../rhythm/index.js';
import type { FormIrregularity, Section } from './form.js';
import type { Reading } from './decode.js';
import { GROUPS, type StepTable } from './steps.js';

/**
 * An irregular phrase is told only when this much of the evidence is for it: a false alarm costs more than a miss. It was 0.7
 * when scores weighed 0.63 of what they do now (decision 50), which is the same share of the evidence.
 */
const LEAST_CONFIDENCE = 0.8;

/** A phrase this many bars or fewer from a usual length is that length with bars added or dropped. */
const NEAR_BARS = 4;

/** A track counts in eights when at least this many phrases inside it do, and no more than one has half an eight over. */
const LEAST_EIGHTS = 4;
const EIGHT = 2 * BARS_IN_GROUP;
/** Where sixteens are usual, an eight alone and three eights together are as well. */
const AMONG_SIXTEENS = [16, 8, 24];

/** Whether a track counts in eights throughout, so that four bars more or fewer leave its pattern. */
export function countsInEights(lengths: readonly number[]): boolean {
  const halves = eightsInHalves(lengths);
  const inner = lengths.filter((_, i) => i > 0 && i < lengths.length - 1 && !halves[i]);
  const eights = inner.filter((bars) => bars % EIGHT === 0).length;
  return eights >= LEAST_EIGHTS && inner.filter((bars) => bars % EIGHT === BARS_IN_GROUP).length <= 1;
}

/** For each phrase, whether it is four bars long and one half of an eight: two fours that follow each other. */
function eightsInHalves(lengths: readonly number[]): boolean[] {
  const out = lengths.map(() => false);
  for (let i = 1; i < lengths.length; i++)
    if (lengths[i] === BARS_IN_GROUP && lengths[i - 1] === BARS_IN_GROUP && !out[i - 1]) out[i - 1] = out[i] = true;
  return out;
}

/**
 * Whether a phrase's length fits the pattern: groups stay whole, and eights where the track counts in eights. The first
 * and last phrase may be cut off.
 */
export function isRegular(bars: number, edge: boolean, inEights = false): boolean {
  return edge || bars % (inEights ? EIGHT : BARS_IN_GROUP) === 0;
}

/** Whether each phrase of a track fits its pattern; an eight may come in two halves, and what most phrases do is the pattern. */
export function regularPhrases(lengths: readonly number[]): boolean[] {
  const inEights = countsInEights(lengths);
  const halves = eightsInHalves(lengths);
  const inner = lengths.slice(1, -1);
  const usual = inner.find(
    (bars) => inner.filter((b) => b === bars).length > Math.max(inner.length / 2, LEAST_EIGHTS - 1),
  );
  return lengths.map(
    (bars, i) => halves[i] || bars === usual || isRegular(bars, i === 0 || i === lengths.length - 1, inEights),
  );
}

/** The kind of an irregular length and the length it departs from. */
export function departure(
  bars: number,
  usual: number,
): { kind: 'added-bars' | 'dropped-bars' | 'odd-phrase'; usual: number } {
  const lengths = usual === 16 ? AMONG_SIXTEENS : [usual];
  const near = lengths
    .filter((u) => Math.abs(bars - u) <= NEAR_BARS)
    .sort((a, b) => Math.abs(bars - a) - Math.abs(bars - b))[0];
  if (near === undefined) return { kind: 'odd-phrase', usual };
  return { kind: bars > near ? 'added-bars' : 'dropped-bars', usual: near };
}

/** Phrases whose length breaks the groups, with what can be heard there. */
export function lengthIrregularities(
  grid: Grid,
  steps: StepTable,
  reading: Reading,
  sections: readonly Section[],
): FormIrregularity[] {
  const out: FormIrregularity[] = [];
  const starts = reading.phraseStarts;
  const lengths = phraseLengths(reading, grid.bars.length);
  const inEights = countsInEights(lengths);
  const regular = regularPhrases(lengths);
  starts.forEach((start, i) => {
    const next = starts[i + 1];
    if (i === 0 || next === undefined || regular[i] || restOfEight(reading, lengths, i + 1)) return;
    // Half an eight inside a section goes on with the phrase before it.
    const half = inEights && next - start === BARS_IN_GROUP;
    const prolongs = half && i > 1 && !reading.sectionStarts.includes(start);
    // Half an eight that opens a section makes what follows in it longer: four and eight count like eight and four.
    const opens =
      half && !prolongs && starts[i + 2] !== undefined && regular[i + 1] && !reading.sectionStarts.includes(next);
    const restOf = restOfEight(reading, lengths, i);
    const from = prolongs || restOf ? starts[i - 1] : start;
    const end = opens ? starts[i + 2] : next;
    const bars = end - from;
    // What is shorter than a group is the rest of a phrase and none of its own.
    if (bars < BARS_IN_GROUP && reading.usual > BARS_IN_GROUP) return;
    const confidence =
      bars % EIGHT === BARS_IN_GROUP
        ? halfWeight(reading, from, half && !prolongs ? (starts[i + 2] ?? end) : end)
        : restOf
          ? halfWeight(reading, from, end)
          : irregularWeight(reading, from, bars);
    if (confidence < LEAST_CONFIDENCE) return;
    const { kind, usual } =
      prolongs || opens
        ? { kind: 'added-bars' as const, usual: bars - BARS_IN_GROUP }
        : goesOnSo(reading, i, bars)
          ? { kind: 'odd-phrase' as const, usual: reading.usual }
          : departure(bars, reading.usual);
    const at = kind === 'added-bars' ? from + usual : kind === 'dropped-bars' ? end : start;
    const section = sections.findLast((s) => s.startBar <= grid.bars[from].number)!;
    out.push({
      kind,
      bar: grid.bars[at].number,
      time: grid.bars[at].start,
      startBar: grid.bars[from].number,
      endBar: grid.bars[end - 1].number,
      bars,
      usualBars: usual,
      function: section.function,
      nextStart: grid.bars[end].start,
      ...(prolongs ? {} : alternativeTo(grid, reading, from + usual, end)),
      confidence,
      evidence: {
        startShare: round(reading.phrasePosterior[from]),
        endShare: round(reading.phrasePosterior[end]),
        ...(kind === 'added-bars' ? heardIn(steps, from, at, end) : {}),
      },
    });
  });
  return out;
}

/**
 * Whether a phrase off the groups goes on with a four before it in its section: four and five are an eight with a bar too many,
 * not a four and an eight that lacks three.
 */
function restOfEight({ sectionStarts, phraseStarts, usual }: Reading, lengths: readonly number[], i: number): boolean {
  const four = usual > BARS_IN_GROUP && i > 1 && lengths[i - 1] === BARS_IN_GROUP;
  const off = lengths[i] % BARS_IN_GROUP !== 0 && lengths[i] < EIGHT;
  return (
    four && off && i + 1 < lengths.length && !sectionStarts.includes(phraseStarts[i]) && !eightsInHalves(lengths)[i - 1]
  );
}

/** Whether a neighbour in the same section has the same length, off the groups: then that is how the section counts. */
function goesOnSo({ phraseStarts, sectionStarts }: Reading, i: number, bars: number): boolean {
  if (bars % BARS_IN_GROUP === 0) return false;
  const length = (k: number) => phraseStarts[k + 1] - phraseStarts[k];
  const before = i > 0 && !sectionStarts.includes(phraseStarts[i]) && length(i - 1) === bars;
  return before || (!sectionStarts.includes(phraseStarts[i + 1]) && length(i + 1) === bars);
}

/** Lengths of a reading's phrases; the last ends with the track. */
export function phraseLengths({ phraseStarts }: Reading, bars: number): number[] {
  return phraseStarts.map((start, i) => (phraseStarts[i + 1] ?? bars) - start);
}

/** A phrase of the usual length is told as another reading from this share of the evidence on. */
const LEAST_ALTERNATIVE: Fraction = 0.02;

/** The start of the next phrase if this one had the usual length. */
function alternativeTo(grid: Grid, { phrasePosterior }: Reading, at: number, end: number) {
  const bar = grid.bars[at];
  const share = phrasePosterior[at] ?? 0;
  if (bar === undefined || at === end || share < LEAST_ALTERNATIVE) return {};
  return { alternativeBar: bar.number, alternativeStart: bar.start, alternativeShare: Math.min(round(share), 1) };
}

/**
 * How sure it is that there is half an eight too much or too little between two starts, in whatever way it is told: 12 bars, or 8
 * and 4, or 4 and 8, count alike for who counts along.
 */
function halfWeight(reading: Reading, from: number, to: number): Fraction {
  const share = (a: number, z: number) => reading.posteriorOf(a, z - a);
  const ways = new Set([from + BARS_IN_GROUP, to - BARS_IN_GROUP]);
  let sum = share(from, to);
  for (const inner of ways) {
    const here = reading.phrasePosterior[inner];
    if (inner > from && inner < to && here > 0) sum += (share(from, inner) * share(inner, to)) / here;
  }
  return Math.min(1, sum);
}

/** How sure it is that a phrase of an irregular length starts or ends here, whatever its exact reading. */
function irregularWeight(reading: Reading, start: number, bars: number): Fraction {
  return Math.min(1, reading.posteriorOf(start, bars));
}

/** How the surplus bars differ from the phrase before them: level, and density of onsets. */
function heardIn(steps: StepTable, start: number, from: number, end: number): Evidence {
  const mean = (table: Float32Array, first: number, last: number, a: number, b: number) => {
    let s = 0;
    for (let r = steps.barRow[a]; r < steps.barRow[b]; r++)
      for (let g = first; g < last; g++) s += table[r * GROUPS + g];
    return s / Math.max((steps.barRow[b] - steps.barRow[a]) * (last - first), 1);
  };
  const level = (a: number, b: number) => 10 * Math.log10(mean(steps.power, 0, GROUPS, a, b) + 1e-5);
  const onsets = (a: number, b: number) => mean(steps.flux, 3, GROUPS, a, b);
  return {
    levelDecibels: round(level(from, end) - level(start, from)),
    onsetRatio: round(onsets(from, end) / Math.max(onsets(start, from), 1e-3)),
  };
}

function round(x: number): number {
  return Math.round(x * 100) / 100;
}
