import type { MatchRemark } from '../wording/index.js';
import type { TrackMatch } from './places.js';
import { semitonesOf } from './tempo.js';

/** Differences under this are not heard as a jump. Common practice, no source. */
const EQUALLY_LOUD = 1;
/** Changes of tempo under this are none. */
const SAME_TEMPO = 5e-5;

/** What is so for every plan of two records: tempo, keys, loudness. */
export function pairRemarks(
  { tempo, keys, loudness }: Omit<TrackMatch, 'plans' | 'obstacles'>,
  keyLock: boolean,
): { readonly reasons: MatchRemark[]; readonly cautions: MatchRemark[] } {
  const changes = (['a', 'b'] as const).flatMap((deck): MatchRemark[] => {
    const rate = deck === 'a' ? tempo.rateA : tempo.rateB;
    if (Math.abs(rate - 1) < SAME_TEMPO) return [];
    return [{ kind: 'tempo-change', deck, percent: (rate - 1) * 100, semitones: semitonesOf(rate) }];
  });
  const ratio: MatchRemark[] =
    tempo.ratio === 1
      ? []
      : [
          {
            kind: 'tempo-ratio',
            ratio: tempo.ratio,
            bpmA: tempo.bpm / tempo.rateA,
            bpmB: (tempo.bpm * tempo.ratio) / tempo.rateB,
          },
        ];
  const pick = keys === null ? null : keyLock ? keys.locked : keys.unlocked;
  const key: MatchRemark[] = pick === null ? [] : [keyRemark(pick, keyLock)];
  const other = keys === null ? null : keyLock ? keys.unlocked : keys.locked;
  const differs = pick !== null && other !== null && (pick.relation !== other.relation || pick.cents !== other.cents);
  const both = differs ? [...key, keyRemark(other, !keyLock)] : key;
  const good = pick !== null && pick.relation !== 'other' && Math.abs(pick.cents) <= 25;
  const louder: MatchRemark[] =
    loudness === null || Math.abs(loudness.differenceLu) < EQUALLY_LOUD
      ? []
      : [
          {
            kind: 'louder',
            deck: loudness.differenceLu > 0 ? 'b' : 'a',
            lu: Math.abs(loudness.differenceLu),
          },
        ];
  return {
    reasons: [...changes, ...ratio, ...(good ? both : [])],
    cautions: [...(good ? [] : both), ...louder],
  };
}

function keyRemark(
  {
    relation,
    fifths,
    cents,
  }: { relation: Extract<MatchRemark, { kind: 'key' }>['relation']; fifths: number; cents: number },
  locked: boolean,
): MatchRemark {
  return { kind: 'key', relation, fifths, cents, locked };
}
