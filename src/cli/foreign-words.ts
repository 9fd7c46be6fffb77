import type { Agreement, CountAgreement, NotTaken, Takeable } from '../exchange/index.js';
import { correctionWords, type TakenCorrections } from '../track/index.js';

/** What can be taken over, as a sentence names it. */
const NAMES: Record<Takeable, string> = {
  tempo: 'the tempo',
  metre: 'beats to the bar',
  'first-one': 'where bar 1 starts',
  beats: 'beats',
  bars: 'bars',
  phrases: 'phrases',
  sections: 'sections',
};
/** Labels that are named before the rest is counted. */
const FEW = 4;

/** What was not taken over, and why: a sentence each. @param file the name of the foreign file */
export function notTakenSentences(
  notTaken: readonly NotTaken[],
  { refused, known }: Pick<TakenCorrections, 'refused' | 'known'>,
  file: string,
): string[] {
  const unstated = notTaken.flatMap((n) => (n.kind === 'not-stated' ? [NAMES[n.what]] : []));
  return [
    ...(unstated.length > 0 ? [`${file} does not state ${list(unstated, 'or')}.`] : []),
    ...notTaken.flatMap((n) => (n.kind === 'not-stated' ? [] : [sentence(n, file)])),
    ...refused.map(({ correction, by }) =>
      by === null
        ? `Not taken, because the track cannot be counted so: ${correctionWords(correction)}.`
        : `Not taken, because it was said before that ${correctionWords(by)}: ${correctionWords(correction)}.`,
    ),
    ...(known.length > 0 ? [`Said before in the same words: ${known.map((c) => correctionWords(c)).join('; ')}.`] : []),
  ];
}

function sentence(n: Exclude<NotTaken, { kind: 'not-stated' }>, file: string): string {
  switch (n.kind) {
    case 'tempo-beside-beats':
      return `${file} states ${round(n.stated)} BPM, but its beats come at ${round(n.beats)}: the beats are followed.`;
    case 'out-of-range':
      return n.what === 'tempo'
        ? `Not taken: a tempo of ${round(n.value)} BPM cannot be counted.`
        : `Not taken: bars of ${round(n.value)} beats cannot be counted.`;
    case 'label': {
      const named = n.labels.slice(0, FEW).map((l) => `"${l}"`);
      const called = n.labels.length > FEW ? `${named.join(', ')} and so on` : list(named, 'or');
      return `Only the places are taken of sections that are called ${called}: what they do is not said.`;
    }
    case 'outside':
      return `Not taken: ${n.count} ${n.count === 1 ? n.what.slice(0, -1) : n.what} before its first beat or after its last.`;
  }
}

/** How much of what the foreign file says is counted so now: one sentence; none where nothing can be compared. */
export function agreementSentence(agreement: CountAgreement, file: string): string {
  const share = ({ found, of }: Agreement, what: string) => (of === 0 ? [] : [`${found} of ${of} ${what}`]);
  const { beats, downbeats, sections } = agreement;
  const near = [...share(beats, 'beats'), ...share(downbeats, 'bar ones')];
  const parts = [
    ...(near.length > 0 ? [`${list(near, 'and')} within 70 ms`] : []),
    ...share(sections, 'section starts within half a second'),
  ];
  return parts.length === 0 ? '' : `Counted now as ${file} has it: ${parts.join('; ')}.`;
}

function list(words: readonly string[], join: 'and' | 'or'): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${join} ${words[words.length - 1]}`;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
