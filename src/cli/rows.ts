import { trackName, type TrackOutline } from '../crate/index.js';
import { clock } from '../units/index.js';
import { doubtQuestion, keyName, tempoDoubt } from '../wording/index.js';

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

export function trackRow(track: TrackOutline): TrackRow {
  const { source, tempo, key } = track;
  return {
    file: source.file,
    title: trackName(track),
    artist: source.tags.artist ?? '',
    bpm: tempo.bpm.toFixed(2),
    key: key.tonic && key.mode ? keyName(key.tonic, key.mode) : '',
    length: clock(source.durationSeconds, 0),
    phrases: phrasePattern(track),
    irregularities: `${track.irregularities.length}`,
    doubt: doubts(track).join(', '),
  };
}

/** A track as a row of a crate: what the table of an analysis says, its sections and its loudness. */
export interface CrateRow extends TrackRow {
  readonly lufs: string;
  readonly sections: string;
}

/** The columns of a crate for other programs. */
export const CRATE_FIELDS = [
  'file',
  'title',
  'artist',
  'bpm',
  'key',
  'length',
  'lufs',
  'phrases',
  'sections',
  'irregularities',
  'doubt',
] as const satisfies readonly (keyof CrateRow)[];

export function crateRow(track: TrackOutline): CrateRow {
  const lufs = track.loudness.integratedLufs;
  return { ...trackRow(track), lufs: lufs === null ? '' : lufs.toFixed(1), sections: sectionLayout(track) };
}

/** The sections in order with their bars, neighbours of one function taken together. @example // 'intro 16, main 32' */
export function sectionLayout({ sections }: Pick<TrackOutline, 'sections'>): string {
  const parts: { name: string; bars: number }[] = [];
  for (const { function: name, startBar, endBar } of sections) {
    const bars = endBar - startBar + 1;
    const last = parts.at(-1);
    if (last?.name === name) last.bars += bars;
    else parts.push({ name, bars });
  }
  return parts.map(({ name, bars }) => `${name} ${bars}`).join(', ');
}

/** The lengths of the phrases in order, runs taken together. @example // '3×16 8 18 2×16' */
export function phrasePattern({ phrases }: TrackOutline): string {
  const runs: { bars: number; times: number }[] = [];
  for (const { bars } of phrases) {
    const last = runs.at(-1);
    if (last?.bars === bars) last.times++;
    else runs.push({ bars, times: 1 });
  }
  return runs.map(({ bars, times }) => (times > 1 ? `${times}×${bars}` : `${bars}`)).join(' ');
}

/** What is not sure about a track, in few words; empty when nothing is. */
export function doubts(track: TrackOutline): string[] {
  const { tempo, beatPhase, downbeat, metre, key } = track;
  const doubtful = (confidence: number | null) => confidence === null || confidence < DOUBT_BELOW;
  const question = tempoDoubt(track);
  const found: string[] = [];
  if (question) found.push(doubtQuestion(question));
  else if (doubtful(tempo.confidence)) found.push('tempo?');
  if (doubtful(metre.confidence)) found.push('metre?');
  if (doubtful(beatPhase.confidence)) found.push('beat?');
  if (doubtful(downbeat.confidence)) found.push('bar one?');
  if (doubtful(key.confidence)) found.push('key?');
  return found;
}
