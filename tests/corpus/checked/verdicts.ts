import { readFileSync } from 'node:fs';
import { IRREGULARITY_KINDS, type IrregularityKind } from '../../../src/units/index.js';
import { markdown } from '../tables.js';

export const CHECKED = 'tests/corpus/checked-irregularities.json';

/** Something irregular as the present code reports it. */
export interface Reported {
  readonly song: string;
  readonly kind: IrregularityKind;
  readonly time: number;
  readonly bar: number;
  readonly detail: Readonly<Record<string, unknown>>;
}

/** A place that somebody looked up in the notes of the song. */
export interface Checked {
  readonly song: string;
  readonly kind: IrregularityKind;
  /** Seconds. */
  readonly time: number;
  /**
   * `missed` is real, established from the data, and was not reported when the list was made; `open` cannot be told from
   * the data and is not counted.
   */
  readonly verdict: 'right' | 'wrong' | 'missed' | 'open';
  readonly reason: string;
}

const list = JSON.parse(readFileSync(new URL('../checked-irregularities.json', import.meta.url), 'utf8')) as Checked[];

/** Reports of one kind this near (s) are the same. */
const WINDOW = 1;

const meets = (a: { song: string; kind: string; time: number }, b: Checked) =>
  a.song === b.song && a.kind === b.kind && Math.abs(a.time - b.time) <= WINDOW;

/** What is known of a report; `null` when nobody has looked at it yet. */
export function verdictOn(item: Reported): Checked | null {
  return list.find((c) => meets(item, c)) ?? null;
}

/** One row a kind: reported, right, wrong, not looked at; what is real and was found or not. */
export function precisionTable(reported: readonly Reported[], songs: readonly string[]): string {
  const rows = [...IRREGULARITY_KINDS, 'all'].map((kind) => {
    const mine = reported.filter((r) => kind === 'all' || r.kind === kind);
    const known = mine.map(verdictOn);
    const right = known.filter((c) => c?.verdict === 'right' || c?.verdict === 'missed').length;
    const open = known.filter((c) => c?.verdict === 'open').length;
    const wrong = known.filter((c) => c?.verdict === 'wrong').length;
    const real = list.filter(
      (c) =>
        (c.verdict === 'right' || c.verdict === 'missed') &&
        songs.includes(c.song) &&
        (kind === 'all' || c.kind === kind),
    );
    const met = real.filter((c) => mine.some((r) => meets(r, c))).length;
    const precision = right + wrong > 0 ? (right / (right + wrong)).toFixed(2) : '–';
    return [kind, `${mine.length}`, `${right}`, `${wrong}`, `${open}`, `${mine.length - right - wrong - open}`, precision, `${real.length}`, `${met}`]; // prettier-ignore
  });
  return markdown(
    ['kind', 'reported', 'right', 'wrong', 'open', 'not checked', 'precision', 'known to be real', 'of them reported'],
    rows,
  );
}
