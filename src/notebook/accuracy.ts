import { readFile } from 'node:fs/promises';
import { parse } from 'node:path';
import type { ArrangementTruth } from '../arranger/index.js';
import {
  MEASURE_INFO,
  measureText,
  readArrangementTruth,
  type Measure,
  type Scores,
  type Truth,
} from '../evaluation/index.js';
import type { TrackAnalysis } from '../track/index.js';
import { BarwiseError } from '../units/index.js';
import { htmlTable, textTable, type TableCell } from './markup.js';
import type { Display } from './ready.js';

/**
 * What is true of a track of the demo crate: it was made from a score, which stands beside it.
 * @experimental
 * @throws BarwiseError `file-missing` for a track that has no truth beside it
 */
export async function demoTruth(analysis: TrackAnalysis): Promise<Truth> {
  const { file, durationSeconds } = analysis.source;
  const { dir, name } = parse(file);
  const beside = `${dir}/${name}.truth.json`;
  try {
    const truth = JSON.parse(await readFile(beside, 'utf8')) as ArrangementTruth;
    return readArrangementTruth(name, truth, durationSeconds);
  } catch (cause) {
    throw new BarwiseError('file-missing', `There is no truth beside ${file}: take a track of the demo crate.`, {
      file: beside,
      cause,
    });
  }
}

/** A track and its scores. @experimental */
export interface ScoredTrack {
  readonly name: string;
  readonly scores: Scores;
}

/** Scores as a table: a row a track, a column a measure; "–" where there was nothing to judge. @experimental */
export function scoreTable(tracks: readonly ScoredTrack[], measures: readonly Measure[]): Display {
  const head: TableCell[] = [
    { text: 'track' },
    ...measures.map((m) => ({ text: headOf(m), number: true, wrap: 'narrow' as const })),
  ];
  const rows = tracks.map(({ name, scores }) => [
    { text: name },
    ...measures.map((m) => ({ text: cell(m, scores[m]), number: true, strong: isLow(m, scores[m]) })),
  ]);
  const isShares = measures.some((m) => MEASURE_INFO[m].unit === 'share');
  const caption = isShares
    ? 'Shares from 0 to 1, 1 is best. Bold: under 0.9.'
    : 'Smaller is better; – where there is nothing to judge.';
  return {
    bundle: { 'text/html': htmlTable(caption, head, rows), 'text/plain': textTable(caption, head, rows) },
  };
}

function headOf(measure: Measure): string {
  const { name, unit } = MEASURE_INFO[measure];
  return unit === 'share' ? name : `${name} (${unit})`;
}

function cell(measure: Measure, value: number | null): string {
  return value === null ? '–' : measureText(measure, value).replace('-', '−');
}

function isLow(measure: Measure, value: number | null): boolean {
  return value !== null && MEASURE_INFO[measure].unit === 'share' && value < 0.9;
}
