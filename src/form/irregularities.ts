import type { Fraction } from '../units/index.js';
import { BARS_IN_GROUP } from '../units/index.js';
import type { Evidence, Grid } from '../rhythm/index.js';
import type { FormIrregularity, Section } from './form.js';
import type { Reading } from './decode.js';
import { GROUPS, type StepTable } from './steps.js';

/** An irregular phrase is told only when this much of the evidence is for it. */
const LEAST_CONFIDENCE = 0.5;

/** A phrase this many bars or fewer from a usual length is that length with bars added or dropped. */
const NEAR_BARS = 3;

/** Whether a phrase's length fits the pattern: groups stay whole. The first and last phrase may be cut off. */
export function isRegular(bars: number, edge: boolean): boolean {
  return edge || bars % BARS_IN_GROUP === 0;
}

/** The kind of an irregular length and the length it departs from. */
export function departure(
  bars: number,
  usual: number,
): { kind: 'added-bars' | 'dropped-bars' | 'odd-phrase'; usual: number } {
  const lengths = usual === 16 ? [16, 8] : [usual];
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
  starts.forEach((start, i) => {
    const end = starts[i + 1];
    if (i === 0 || end === undefined || isRegular(end - start, false)) return;
    const bars = end - start;
    const confidence = irregularWeight(reading, start, bars);
    if (confidence < LEAST_CONFIDENCE) return;
    const { kind, usual } = departure(bars, reading.usual);
    const at = kind === 'added-bars' ? start + usual : kind === 'dropped-bars' ? end : start;
    const section = sections.findLast((s) => s.startBar <= grid.bars[start].number)!;
    out.push({
      kind,
      bar: grid.bars[at].number,
      time: grid.bars[at].start,
      startBar: grid.bars[start].number,
      endBar: grid.bars[end - 1].number,
      bars,
      usualBars: usual,
      function: section.function,
      nextStart: grid.bars[end].start,
      ...alternativeTo(grid, reading, start + usual, end),
      confidence,
      evidence: {
        startShare: round(reading.phrasePosterior[start]),
        endShare: round(reading.phrasePosterior[end]),
        ...(kind === 'added-bars' ? heardIn(steps, start, at, end) : {}),
      },
    });
  });
  return out;
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
