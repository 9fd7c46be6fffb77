import { basename } from 'node:path';
import { clock, type TrackAnalysis } from '../../src/index.js';
import { doubtWord, keyName, wordsOf } from '../../src/wording/index.js';
import { mixInRoom, mixOutRoom } from './room.js';
import { tempoWords } from './tempo.js';

/** A named fact: what, the fact, and a line to go with it. */
export interface Fact {
  readonly name: string;
  readonly value: string;
  readonly detail: string;
}

const bars = (n: number): string => `${n} ${n === 1 ? 'bar' : 'bars'}`;
const SURE = doubtWord(1);

/** The title, or the file's name where a track has none. */
export function titleOf({ source }: TrackAnalysis): string {
  return source.tags.title?.trim() ? source.tags.title : basename(source.file);
}

export function artistOf({ source }: TrackAnalysis): string {
  return source.tags.artist?.trim() ? source.tags.artist : '';
}

/** The key; two keys in question where the second is nearly as likely and the first is not sure. */
export function keyWords({ key }: TrackAnalysis): string {
  if (key.tonic === null || key.mode === null) return 'key not found';
  const name = keyName(key.tonic, key.mode);
  const rival = key.alternatives[1];
  if (doubtWord(key.confidence) !== wordsOf().doubt.not || rival === undefined) return name;
  return wordsOf().either(name, keyName(rival.tonic, rival.mode));
}

/** The three things a mix needs: where phrase one is, and how much room there is at both ends. */
export function mixFacts(analysis: TrackAnalysis): readonly Fact[] {
  const first = analysis.bars.find((b) => b.number >= 1);
  const duration = analysis.source.durationSeconds;
  const [into, out] = [mixInRoom(analysis), mixOutRoom(analysis)];
  const known = analysis.sections.length > 0;
  return [
    first === undefined
      ? { name: 'Phrase one', value: 'not found', detail: '' }
      : { name: 'Phrase one', value: clock(first.start, 2), detail: `bar ${first.number}` },
    into === null
      ? { name: 'Mix in', value: known ? 'no intro' : 'not known', detail: known ? 'starts in full' : '' }
      : {
          name: 'Mix in',
          value: bars(into.bars),
          detail: `${clock(into.end - into.start, 0)}, until bar ${into.endBar + 1}`,
        },
    out === null
      ? { name: 'Mix out', value: known ? 'no outro' : 'not known', detail: known ? 'ends in full' : '' }
      : {
          name: 'Mix out',
          value: `${bars(out.bars)}, ${clock(duration - out.start, 0)} left`,
          detail: `from bar ${out.startBar}, ${clock(out.start)}`,
        },
  ];
}

/** Every doubt about the track as a whole, in words; nothing where everything is sure. */
export function doubts(analysis: TrackAnalysis): readonly string[] {
  const { tempo, metre, downbeat, key } = analysis;
  const said: string[] = [];
  const judge = (what: string, confidence: number | null) => {
    const word = doubtWord(confidence);
    if (word !== SURE) said.push(`${what} ${word}`);
  };
  if (tempo.steadiness !== 'free') judge('tempo', tempo.confidence);
  if (analysis.bars.length > 0) {
    judge('metre', metre.confidence);
    judge('beat 1', downbeat.confidence);
  }
  if (key.tonic !== null) judge('key', key.confidence);
  const unjudged = Object.entries(analysis.layers).filter(([, p]) => p.length > 0 && p.every((v) => v === null));
  for (const [layer] of unjudged) said.push(`${layer} not judged`);
  return said;
}

/** The other readings of tempo, metre, first beat and key that were weighed, in sentences. */
export function otherReadings(analysis: TrackAnalysis): readonly string[] {
  const percent = (weight: number) => `${Math.round(weight * 100)} %`;
  const said: string[] = [];
  const others = <T extends { readonly weight: number }>(list: readonly T[], name: (item: T) => string) =>
    list
      .slice(1)
      .filter((item) => item.weight >= 0.1)
      .map((item) => `${name(item)} (${percent(item.weight)})`)
      .join(', ');
  const tempos = others(analysis.tempo.alternatives, (a) => `${Math.round(a.bpm * 100) / 100} BPM`);
  if (tempos !== '') said.push(`The tempo might also be ${tempos}.`);
  const metres = others(analysis.metre.alternatives, (a) => `${a.beatsPerBar}`);
  if (metres !== '') said.push(`Beats a bar might also be ${metres}.`);
  const shift = (n: number) => `${Math.abs(n)} ${Math.abs(n) === 1 ? 'beat' : 'beats'} ${n > 0 ? 'later' : 'earlier'}`;
  const ones = others(analysis.downbeat.alternatives, (a) => shift(a.shiftBeats));
  if (ones !== '') said.push(`Beat 1 of the bar might also lie ${ones}.`);
  const keys = others(analysis.key.alternatives, (a) => keyName(a.tonic, a.mode));
  if (keys !== '') said.push(`The key might also be ${keys}.`);
  return said;
}

/** Loudness in words, with its units (ITU-R BS.1770, EBU Tech 3342). */
export function loudnessWords({ loudness }: TrackAnalysis): string {
  const { integratedLufs, truePeakDbtp, rangeLu } = loudness;
  const signed = (n: number) => n.toFixed(1).replace('-', '−');
  const said = [
    integratedLufs === null ? '' : `${signed(integratedLufs)} LUFS`,
    truePeakDbtp === null ? '' : `true peak ${signed(truePeakDbtp)} dBTP`,
    rangeLu === null ? '' : `range ${signed(rangeLu)} LU`,
  ].filter((s) => s !== '');
  return said.length === 0 ? 'not measured' : said.join(', ');
}

/** What stands under the tempo: its unit, the key, the length. */
export function underTempo(analysis: TrackAnalysis): string {
  const { unit } = tempoWords(analysis);
  return [unit, keyWords(analysis), clock(analysis.source.durationSeconds, 0)].filter((s) => s !== '').join(' · ');
}
