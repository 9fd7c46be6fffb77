import type { TrackAnalysis } from '../../src/index.js';
import { doubtWord, isSure, keyName } from '../../src/wording/index.js';
import type { Style } from '../theme/index.js';
import { mixInRoom, mixOutRoom } from './room.js';

/** A named fact: what, the fact, and a line to go with it. */
export interface Fact {
  readonly name: string;
  readonly value: string;
  readonly detail: string;
}

/** The key; two keys in question where the second is nearly as likely and the first is not sure. */
export function keyWords({ key }: TrackAnalysis, { words }: Style): string {
  if (key.tonic === null || key.mode === null) return words.card.keyNotFound;
  const name = keyName(key.tonic, key.mode, words);
  const rival = key.alternatives[1];
  if (doubtWord(key.confidence, words) !== words.doubt.not || rival === undefined) return name;
  return words.either(name, keyName(rival.tonic, rival.mode, words));
}

/** The three things a mix needs: where phrase one is, and how much room there is at both ends. */
export function mixFacts(analysis: TrackAnalysis, { words }: Style): readonly Fact[] {
  const { card } = words;
  const clock = (time: number, decimals?: number) => words.clock(time, decimals);
  const first = analysis.bars.find((b) => b.number >= 1);
  const duration = analysis.source.durationSeconds;
  const [into, out] = [mixInRoom(analysis), mixOutRoom(analysis)];
  const known = analysis.sections.length > 0;
  return [
    first === undefined
      ? { name: card.phraseOne, value: card.notFound, detail: '' }
      : { name: card.phraseOne, value: clock(first.start, 2), detail: card.bar(first.number) },
    into === null
      ? { name: card.mixIn, value: known ? card.noIntro : card.notKnown, detail: known ? card.startsInFull : '' }
      : {
          name: card.mixIn,
          value: words.bars(into.bars),
          detail: card.until(clock(into.end - into.start, 0), into.endBar + 1),
        },
    out === null
      ? { name: card.mixOut, value: known ? card.noOutro : card.notKnown, detail: known ? card.endsInFull : '' }
      : {
          name: card.mixOut,
          value: card.left(out.bars, clock(duration - out.start, 0)),
          detail: card.from(out.startBar, clock(out.start)),
        },
  ];
}

/** Every doubt about the track as a whole, in words; nothing where everything is sure. */
export function doubts(analysis: TrackAnalysis, { words }: Style): readonly string[] {
  const { tempo, metre, downbeat, key } = analysis;
  const { doubtOf } = words.card;
  const said: string[] = [];
  const judge = (what: string, confidence: number | null) => {
    if (!isSure(confidence)) said.push(`${what} ${doubtWord(confidence, words)}`);
  };
  if (tempo.steadiness !== 'free') judge(doubtOf.tempo, tempo.confidence);
  if (analysis.bars.length > 0) {
    judge(doubtOf.metre, metre.confidence);
    judge(doubtOf.beatOne, downbeat.confidence);
  }
  if (key.tonic !== null) judge(doubtOf.key, key.confidence);
  for (const [layer, presences] of Object.entries(analysis.layers)) {
    if (presences.length === 0 || presences.some((p) => p !== null)) continue;
    said.push(words.card.layerNotJudged(words.layers[layer as keyof typeof words.layers]));
  }
  return said;
}

/** Readings with less than this share of the evidence are not told. */
const LEAST_SHARE = 0.1;

/** The other readings of tempo, metre, first beat and key that were weighed, in sentences. */
export function otherReadings(analysis: TrackAnalysis, { words }: Style): readonly string[] {
  const { card } = words;
  const said: string[] = [];
  const others = <T extends { readonly weight: number }>(list: readonly T[], name: (item: T) => string) =>
    list
      .slice(1)
      .filter((item) => item.weight >= LEAST_SHARE)
      .map((item) => `${name(item)} (${words.percent(item.weight)})`)
      .join(', ');
  const tempos = others(analysis.tempo.alternatives, (a) => `${words.number(a.bpm, 2)} BPM`);
  if (tempos !== '') said.push(card.tempoMightBe(tempos));
  const metres = others(analysis.metre.alternatives, (a) => `${a.beatsPerBar}`);
  if (metres !== '') said.push(card.metreMightBe(metres));
  const ones = others(analysis.downbeat.alternatives, (a) => card.shifted(a.shiftBeats));
  if (ones !== '') said.push(card.oneMightBe(ones));
  const keys = others(analysis.key.alternatives, (a) => keyName(a.tonic, a.mode, words));
  if (keys !== '') said.push(card.keyMightBe(keys));
  return said;
}

/** Loudness in words, with its units (ITU-R BS.1770, EBU Tech 3342). */
export function loudnessWords({ loudness }: TrackAnalysis, { words }: Style): string {
  const { integratedLufs, truePeakDbtp, rangeLu } = loudness;
  const { card } = words;
  const number = (n: number) => words.number(n, 1, 'fixed');
  const said = [
    integratedLufs === null ? '' : `${number(integratedLufs)} LUFS`,
    truePeakDbtp === null ? '' : `${card.truePeak} ${number(truePeakDbtp)} dBTP`,
    rangeLu === null ? '' : `${card.range} ${number(rangeLu)} LU`,
  ].filter((s) => s !== '');
  return said.length === 0 ? card.notMeasured : said.join(', ');
}
