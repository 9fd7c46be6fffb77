import { bootstrapMean, hitScore, median, MEASURES, type Hits, type Measure } from '../../src/evaluation/index.js';
import type { Judgement, Outcome } from './job.js';

/** Column heads of the tables, in their order. */
const HEADS: Readonly<Partial<Record<Measure, string>>> = {
  tempo1: 'tempo acc. 1',
  tempo2: 'acc. 2',
  tempoErrorPercent: 'error %',
  beatF: 'beat F',
  cmlt: 'CMLt',
  amlt: 'AMLt',
  pScore: 'P-score',
  cemgil: 'Cemgil',
  beatMedianMs: 'median ms',
  beat95Ms: '95 % ms',
  beatBiasMs: 'bias ms',
  downbeatF: 'downbeat F',
  groupF: 'group F',
  phraseF: 'phrase F',
  boundaryHalfBeatF: 'section F ½ beat',
  boundaryBarF: '±1 bar',
  boundary05F: '0.5 s',
  boundary3F: '3 s',
  pairwiseF: 'pairwise F',
  key: 'key',
};

/** Measures whose median says more than the mean: one track on the wrong level would drown the rest. */
const MEDIANS = new Set<Measure>(['tempoErrorPercent', 'beatMedianMs', 'beat95Ms', 'beatBiasMs']);

export interface Group {
  readonly name: string;
  readonly outcomes: readonly Outcome[];
}

/** Outcomes by their own group, largest first, after all of them together. */
export function byGroup(outcomes: readonly Outcome[]): Group[] {
  const names = [...new Set(outcomes.map((o) => o.group))];
  const groups = names.map((name) => ({ name, outcomes: outcomes.filter((o) => o.group === name) }));
  groups.sort((a, b) => b.outcomes.length - a.outcomes.length || a.name.localeCompare(b.name));
  return [{ name: 'all', outcomes }, ...groups];
}

/** One row a group and system: means (medians for times), with the 95 % bootstrap interval where asked for. */
export function groupTable(groups: readonly Group[], intervals: boolean): string {
  const systems = [...new Set(groups.flatMap((g) => g.outcomes.flatMap((o) => Object.keys(o.scores))))];
  const measures = MEASURES.filter((m) => HEADS[m] && groups.some((g) => values(g.outcomes, systems, m).length > 0));
  const rows = groups.flatMap(({ name, outcomes }) =>
    systems.map((system) => [
      name,
      `${outcomes.length}`,
      system,
      ...measures.map((m) => cell(values(outcomes, [system], m), m, intervals)),
    ]),
  );
  return markdown(['songs', 'count', 'by', ...measures.map((m) => HEADS[m]!)], rows);
}

/** One row a song. */
export function songTable(outcomes: readonly Outcome[], system = 'barwise'): string {
  const measures = MEASURES.filter((m) => HEADS[m] && values(outcomes, [system], m).length > 0);
  const rows = outcomes.map((o) => {
    const s = o.scores[system];
    return [o.id, o.group, o.cut.toFixed(2), ...measures.map((m) => (s[m] === null ? '–' : number(s[m], m))), o.note];
  });
  return markdown(['id', 'group', 'cut s', ...measures.map((m) => HEADS[m]!), 'irregularities'], rows);
}

/** How often answers given with a confidence were right: a calibrated one is right as often as it says. */
export function confidenceTable(judgements: readonly Judgement[]): string {
  const edges = [0, 0.5, 0.7, 0.85, 0.95, 1.0001];
  const kinds = [...new Set(judgements.map((j) => j.of))];
  const rows = kinds.flatMap((kind) =>
    edges.slice(1).flatMap((high, i) => {
      const bin = judgements.filter((j) => j.of === kind && j.confidence >= edges[i] && j.confidence < high);
      if (bin.length === 0) return [];
      const mean = bin.reduce((a, j) => a + j.confidence, 0) / bin.length;
      const right = bin.filter((j) => j.right).length;
      return [
        [kind, `${edges[i]}–${Math.min(1, high)}`, `${bin.length}`, mean.toFixed(2), (right / bin.length).toFixed(2)],
      ];
    }),
  );
  return markdown(['answer', 'confidence', 'given', 'mean confidence', 'share right'], rows);
}

/** Planted things, found things and hits over all tracks. */
export function hitTable(rows: readonly { name: string; hits: readonly Hits[] }[]): string {
  return markdown(
    ['what', 'planted', 'reported', 'met', 'precision', 'recall'],
    rows.map(({ name, hits }) => {
      const sum = hits.reduce(
        (a, h) => ({ planted: a.planted + h.planted, found: a.found + h.found, hits: a.hits + h.hits }),
        { planted: 0, found: 0, hits: 0 },
      );
      const { precision, recall } = hitScore(sum);
      return [name, `${sum.planted}`, `${sum.found}`, `${sum.hits}`, precision.toFixed(2), recall.toFixed(2)];
    }),
  );
}

function values(outcomes: readonly Outcome[], systems: readonly string[], measure: Measure): number[] {
  return outcomes.flatMap((o) => systems.map((s) => o.scores[s]?.[measure] ?? null)).filter((v) => v !== null);
}

function cell(list: readonly number[], measure: Measure, intervals: boolean): string {
  if (list.length === 0) return '–';
  if (MEDIANS.has(measure)) return number(median(list), measure);
  const { mean, low, high } = bootstrapMean(list);
  return intervals && list.length > 4
    ? `${number(mean, measure)} (${number(low, measure)}–${number(high, measure)})`
    : number(mean, measure);
}

function number(value: number, measure: Measure): string {
  if (measure === 'tempoErrorPercent') return value.toFixed(4);
  return MEDIANS.has(measure) ? value.toFixed(1) : value.toFixed(2);
}

/** A table in Markdown whose columns line up in a terminal too. */
export function markdown(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = head.map((h, c) => Math.max(h.length, ...rows.map((r) => r[c].length)));
  const line = (cells: readonly string[]) => `| ${cells.map((v, c) => v.padEnd(widths[c])).join(' | ')} |`;
  return [line(head), `| ${widths.map((w) => '-'.repeat(w)).join(' | ')} |`, ...rows.map(line)].join('\n');
}

/** Mean of the values, at least one, with its 95 % bootstrap interval. */
export function interval(values: readonly number[]): string {
  const { mean, low, high } = bootstrapMean(values);
  return `${mean.toFixed(3)} (${low.toFixed(3)}–${high.toFixed(3)})`;
}
