import { basename } from 'node:path';
import type { TrackAnalysis } from '../track/index.js';
import { clock } from '../units/index.js';
import { keyName, tempoReading } from '../wording/index.js';

/** Below this an answer is put in doubt. As in the wording: from here on it is at least "fairly sure". */
const DOUBT_BELOW = 0.6;

/** A track as a row of the table, in words. */
export interface TrackRow {
  readonly file: string;
  readonly title: string;
  readonly artist: string;
  readonly bpm: string;
  readonly key: string;
  readonly length: string;
  readonly phrases: string;
  readonly irregularities: string;
  readonly doubt: string;
}

export function trackRow(analysis: TrackAnalysis): TrackRow {
  const { source, tempo, key } = analysis;
  return {
    file: source.file,
    title: source.tags.title?.trim() || basename(source.file),
    artist: source.tags.artist ?? '',
    bpm: tempo.bpm.toFixed(2),
    key: key.tonic && key.mode ? keyName(key.tonic, key.mode) : '',
    length: clock(source.durationSeconds, 0),
    phrases: phrasePattern(analysis),
    irregularities: `${analysis.irregularities.length}`,
    doubt: doubts(analysis).join(', '),
  };
}

/** The lengths of the phrases in order, runs taken together. @example // '3×16 8 18 2×16' */
export function phrasePattern({ phrases }: TrackAnalysis): string {
  const runs: { bars: number; times: number }[] = [];
  for (const { bars } of phrases) {
    const last = runs.at(-1);
    if (last?.bars === bars) last.times++;
    else runs.push({ bars, times: 1 });
  }
  return runs.map(({ bars, times }) => (times > 1 ? `${times}×${bars}` : `${bars}`)).join(' ');
}

/** What is not sure about a track, in few words; empty when nothing is. */
export function doubts({ tempo, beatPhase, downbeat, metre, key }: TrackAnalysis): string[] {
  const doubtful = (confidence: number | null) => confidence === null || confidence < DOUBT_BELOW;
  const reading = tempoReading(tempo.alternatives);
  const found: string[] = [];
  if (reading.endsWith('?')) found.push(reading);
  else if (doubtful(tempo.confidence)) found.push('tempo?');
  if (doubtful(metre.confidence)) found.push('metre?');
  if (doubtful(beatPhase.confidence)) found.push('beat?');
  if (doubtful(downbeat.confidence)) found.push('bar one?');
  if (doubtful(key.confidence)) found.push('key?');
  return found;
}
