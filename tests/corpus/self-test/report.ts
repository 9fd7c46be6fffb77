import { bootstrapMean, hitScore, type Hits } from '../../../src/evaluation/index.js';
import { IRREGULARITY_KINDS, LAYERS } from '../../../src/units/index.js';
import { markdown } from '../tables.js';
import { SYSTEMS, type FormScores, type Verdict } from './judge.js';

const MEASURES: readonly (readonly [keyof FormScores, string, string])[] = [
  ['phrase', 'phrase starts F, ½ beat', '0.95'],
  ['halfBeat', 'sections F, ½ beat', '0.90'],
  ['halfSecond', 'sections F, 0.5 s', ''],
  ['threeSeconds', 'sections F, 3 s', ''],
  ['functions', 'functions, share of time', '0.85'],
];

/** Goals of the layers: kick, bass and percussion 0.9, harmony 0.8. */
const LAYER_GOALS: Readonly<Record<string, string>> = {
  kick: '0.90',
  bass: '0.90',
  percussion: '0.90',
  harmony: '0.80',
};

/** The tables of a self-test. */
export function report(verdicts: readonly Verdict[]): string {
  const sets = [
    ['both', verdicts],
    ['first', verdicts.filter((v) => v.set === 'first')],
    ['second', verdicts.filter((v) => v.set === 'second')],
  ] as const;
  const shown = sets.filter(([, list]) => list.length > 0);
  const column = (rows: (list: readonly Verdict[]) => string[]) => shown.map(([, list]) => rows(list));
  const names = shown.map(([name, list]) => `${name} (${list.length})`);
  const rows = (labels: readonly (readonly string[])[], cells: string[][]) =>
    labels.map((label, i) => [...label, ...cells.map((c) => c[i])]);
  return [
    '### Phrases, sections, functions',
    markdown(
      ['measure', 'by', 'goal', ...names],
      rows(
        MEASURES.flatMap(([, label, goal]) =>
          SYSTEMS.map((system) => [label, system, system === 'barwise' ? goal : '']),
        ),
        column((list) =>
          MEASURES.flatMap(([measure]) => SYSTEMS.map((s) => mean(list.map((v) => v.scores[s][measure])))),
        ),
      ),
    ),
    '### Layers entering and leaving, within one bar: F (precision, recall; planted)',
    markdown(
      ['layer', 'goal', ...names],
      rows(LAYERS.map((l) => [l, LAYER_GOALS[l] ?? '']), column((list) => LAYERS.map((l) => hits(list.map((v) => v.layers[l]))))), // prettier-ignore
    ),
    '### Irregularities, same kind within half a bar: precision, recall (planted, reported)',
    markdown(
      ['kind', 'goal', ...names],
      rows(
        [
          ...IRREGULARITY_KINDS.map((k) => [k, '']),
          ['all', '0.90, 0.90'],
          ['regular tracks with a false alarm', '≤ 0.05'],
        ],
        column((list) => [
          ...IRREGULARITY_KINDS.map((k) => precision(list.map((v) => v.kinds[k]))),
          precision(list.flatMap((v) => Object.values(v.kinds))),
          alarms(list),
        ]),
      ),
    ),
    '### By style',
    markdown(
      ['set', 'style', 'tracks', 'grid right', 'phrases', 'sections ½ beat', 'functions', 'irregularities P, R'],
      styles(verdicts),
    ),
  ].join('\n\n');
}

function styles(verdicts: readonly Verdict[]): string[][] {
  const names = [...new Set(verdicts.map((v) => `${v.set}/${v.style}`))].sort();
  return names.map((name) => {
    const list = verdicts.filter((v) => `${v.set}/${v.style}` === name);
    const of = (m: keyof FormScores) =>
      mean(
        list.map((v) => v.scores.barwise[m]),
        false,
      );
    const right = list.filter((v) => v.gridRight).length;
    const kinds = precision(list.flatMap((v) => Object.values(v.kinds)));
    return [...name.split('/'), `${list.length}`, `${right}`, of('phrase'), of('halfBeat'), of('functions'), kinds];
  });
}

function mean(values: readonly (number | null)[], interval = true): string {
  const list = values.filter((v) => v !== null);
  if (list.length === 0) return '–';
  const { mean: m, low, high } = bootstrapMean(list);
  return interval && list.length > 4 ? `${m.toFixed(3)} (${low.toFixed(3)}–${high.toFixed(3)})` : m.toFixed(3);
}

export function total(list: readonly Hits[]): Hits {
  return list.reduce((a, h) => ({ planted: a.planted + h.planted, found: a.found + h.found, hits: a.hits + h.hits }), { planted: 0, found: 0, hits: 0 }); // prettier-ignore
}

function hits(list: readonly Hits[]): string {
  const sum = total(list);
  const { f, precision: p, recall } = hitScore(sum);
  return `${f.toFixed(2)} (${p.toFixed(2)}, ${recall.toFixed(2)}; ${sum.planted})`;
}

function precision(list: readonly Hits[]): string {
  const sum = total(list);
  const p = sum.found > 0 ? (sum.hits / sum.found).toFixed(2) : '–';
  const r = sum.planted > 0 ? (sum.hits / sum.planted).toFixed(2) : '–';
  return `${p}, ${r} (${sum.planted}, ${sum.found})`;
}

/** Share of the regular tracks on which anything irregular is reported. */
export function falseAlarms(verdicts: readonly Verdict[]): { tracks: number; regular: number } {
  const regular = verdicts.filter((v) => v.regular);
  return { tracks: regular.filter((v) => total(Object.values(v.kinds)).found > 0).length, regular: regular.length };
}

function alarms(list: readonly Verdict[]): string {
  const { tracks, regular } = falseAlarms(list);
  return regular > 0 ? `${(tracks / regular).toFixed(2)} (${tracks} of ${regular})` : '–';
}
