import { readingName } from '../charts/index.js';
import {
  correctionWords,
  correctTrack,
  undoCorrection,
  type AnalysisChange,
  type Correction,
  type CorrectedTrack,
  type CorrectOptions,
  type OneReading,
  type TrackAnalysis,
} from '../track/index.js';
import { clock } from '../units/index.js';
import { runs, wordsOf } from '../wording/index.js';
import { htmlTable, textTable, type TableCell } from './markup.js';
import type { Display } from './ready.js';

/** What a correction changed, ready to be shown, and the analysis under it. @experimental */
export interface Corrected extends Display {
  readonly analysis: TrackAnalysis;
}

/**
 * Says what is so about a track; it is counted so from then on, here and by every command.
 * @experimental
 * @param options `dryRun: true` only shows what would change
 * @throws BarwiseError `contradiction`, and what `correctTrack` throws
 * @example await show(await correct('track.mp3', { kind: 'first-one', time: 12.34 }))
 */
export async function correct(
  track: string,
  corrections: Correction | readonly Correction[],
  options: CorrectOptions = {},
): Promise<Corrected> {
  const all = [corrections].flat() as readonly Correction[];
  return display(await correctTrack(track, all, options), options);
}

/**
 * Takes a correction back.
 * @experimental
 * @param number from 1; by default the last one
 */
export async function undo(track: string, number?: number, options: CorrectOptions = {}): Promise<Corrected> {
  return display(await undoCorrection(track, number, options), options);
}

function display({ changes, corrections, after, file }: CorrectedTrack, { dryRun }: CorrectOptions): Corrected {
  const said = corrections.map((c) => correctionWords(c)).join('; ') || 'nothing is said about the track';
  const kept = dryRun ? 'nothing was written' : `kept in ${file}`;
  const { bundle } = changesTable(changes, `Now: ${said} (${kept}).`);
  return { bundle, analysis: after };
}

/** In what two analyses of a track differ, as a table. @experimental */
export function changesTable(changes: readonly AnalysisChange[], caption = 'What changes'): Display {
  const names = wordsOf('en').story.changed;
  const head: TableCell[] = [{ text: 'what' }, { text: 'before' }, { text: 'after' }];
  const rows = changes.map(({ what, before, after }): TableCell[] => [
    { text: names[what], strong: true },
    { text: before || '–' },
    { text: after || '–' },
  ]);
  const title = changes.length > 0 ? caption : `${caption} Nothing changes.`;
  return { bundle: { 'text/html': htmlTable(title, head, rows), 'text/plain': textTable(title, head, rows) } };
}

/** Readings of the one as a table, with the phrases as they would be. @experimental */
export function readingsTable(readings: readonly OneReading[]): Display {
  const head: TableCell[] = [
    { text: 'the one' },
    { text: 'first phrase one', number: true },
    { text: 'layer changes on it', number: true },
    { text: 'evidence', number: true },
    { text: 'odd phrases', number: true },
    { text: 'bars of the phrases' },
  ];
  const percent = (share: number) => `${Math.round(100 * share)} %`;
  const rows = readings.map((r): TableCell[] => [
    { text: readingName(r), strong: r.shiftBeats === 0 },
    { text: clock(r.firstOne, 2), number: true },
    { text: percent(r.evidence.changesShare), number: true },
    { text: percent(r.weight), number: true },
    { text: `${r.oddPhrases}`, number: true },
    { text: runs(r.phraseBars) },
  ]);
  const caption = 'Every phrase one shifted, and the form found again under that.';
  return { bundle: { 'text/html': htmlTable(caption, head, rows), 'text/plain': textTable(caption, head, rows) } };
}
