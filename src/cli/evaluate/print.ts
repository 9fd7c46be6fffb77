import {
  MEASURE_INFO,
  MEASURES,
  measureText,
  type Measure,
  type Scores,
  type Summary,
} from '../../evaluation/index.js';
import { hasStyle, type Io } from '../io.js';
import { tabSeparated, textTable, type Column } from '../table.js';

/** A track, scored from 5 s on and over its whole length. */
export interface EvaluatedTrack {
  readonly track: string;
  readonly estimate: string;
  readonly truth: string;
  readonly scores: Scores;
  readonly wholeTrack: Scores;
}

export interface Evaluation {
  readonly tracks: readonly EvaluatedTrack[];
  readonly mean: { readonly scores: Summary; readonly wholeTrack: Summary };
  readonly failures: readonly { readonly file: string; readonly code: string; readonly message: string }[];
}

/** What a row of the table of tracks shows; everything stands under it over all tracks. */
const SHORT: readonly { readonly measure: Measure; readonly head: string }[] = [
  { measure: 'tempo1', head: 'Acc. 1' },
  { measure: 'beatF', head: 'Beat F' },
  { measure: 'amlt', head: 'AMLt' },
  { measure: 'beatMedianMs', head: 'Err. ms' },
  { measure: 'downbeatF', head: 'Ones F' },
  { measure: 'groupF', head: 'Groups F' },
  { measure: 'boundary3F', head: 'Sect. 3 s' },
  { measure: 'key', head: 'Key' },
];
const USUAL_WIDTH = 80;
const ABSENT = '–';

/** For a person at a terminal. */
export function evaluationText({ tracks, mean }: Evaluation, io: Io): string {
  const options = { width: io.stdout.columns ?? USUAL_WIDTH, bold: hasStyle(io.stdout, io.env) };
  if (tracks.length === 1)
    return textTable(MEASURE_COLUMNS, measureRows(tracks[0].scores, tracks[0].wholeTrack), options);
  const columns: Column[] = [
    { head: 'Track', least: 14 },
    ...SHORT.map(({ head }): Column => ({ head, align: 'right' })),
  ];
  const rows = tracks.map((t) => [t.track, ...SHORT.map(({ measure }) => cell(measure, t.scores[measure]))]);
  return `${textTable(columns, rows, options)}\n${textTable(SUMMARY_COLUMNS, summaryRows(mean), options)}`;
}

const MEASURE_COLUMNS: readonly Column[] = [
  { head: 'Measure' },
  { head: 'From 5 s', align: 'right' },
  { head: 'Whole track', align: 'right' },
  { head: '' },
];

function measureRows(scores: Scores, whole: Scores): string[][] {
  return MEASURES.filter((m) => scores[m] !== null || whole[m] !== null).map((m) => [
    MEASURE_INFO[m].name,
    cell(m, scores[m]),
    cell(m, whole[m]),
    unitOf(m),
  ]);
}

const SUMMARY_COLUMNS: readonly Column[] = [
  { head: 'Over all tracks', least: 20 },
  { head: 'From 5 s', align: 'right' },
  { head: '95 % interval' },
  { head: 'Whole track', align: 'right' },
  { head: 'Tracks', align: 'right' },
  { head: '' },
];

function summaryRows({ scores, wholeTrack }: Evaluation['mean']): string[][] {
  return MEASURES.flatMap((m) => {
    const i = scores[m];
    if (i === null) return [];
    const median = MEASURE_INFO[m].over === 'median' ? ', median' : '';
    const name = MEASURE_INFO[m].name;
    return [
      [
        name.includes('median') ? name : `${name}${median}`,
        measureText(m, i.mean),
        `${measureText(m, i.low)} – ${measureText(m, i.high)}`,
        cell(m, wholeTrack[m]?.mean ?? null),
        `${i.count}`,
        unitOf(m),
      ],
    ];
  });
}

function unitOf(measure: Measure): string {
  const { unit } = MEASURE_INFO[measure];
  return unit === 'share' ? '' : unit;
}

function cell(measure: Measure, value: number | null): string {
  return value === null ? ABSENT : measureText(measure, value);
}

/** For another program: a row a track, then rows for the mean (or median), the ends of its interval and the count. */
export function evaluationFields({ tracks, mean }: Evaluation): string {
  const plain = (value: number | null | undefined) =>
    value === null || value === undefined ? '' : `${Number(value.toFixed(6))}`;
  const over = (['mean', 'low', 'high', 'count'] as const).map((row) => [
    row,
    '',
    '',
    ...MEASURES.map((m) => plain(mean.scores[m]?.[row])),
  ]);
  return tabSeparated(
    ['track', 'estimate', 'truth', ...MEASURES],
    [...tracks.map((t) => [t.track, t.estimate, t.truth, ...MEASURES.map((m) => plain(t.scores[m]))]), ...over],
  );
}
