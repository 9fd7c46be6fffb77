import { clock } from '../../units/index.js';
import { wordsOf } from '../../wording/index.js';
import type { Position } from '../position.js';
import type { Moment } from '../moments.js';
import { sectionOf, type TrackView } from '../view.js';

/** "1 bar", "2 bars". */
export function count(n: number, thing: string): string {
  return `${n} ${thing}${n === 1 ? '' : 's'}`;
}

/** What the section a bar lies in does; `undefined` where there is none. */
export function functionName(view: TrackView, bar: number): string | undefined {
  const section = sectionOf(view, bar);
  return section && wordsOf('en').functions[section.function];
}

/** Where the music is: "bar 41 · breakdown · bar 9 of 16". */
export function whereWords(view: TrackView, at: Position): string {
  return [
    `bar ${at.bar.number}`,
    functionName(view, at.bar.number),
    `bar ${at.bar.phraseBar} of ${at.phraseBars} in the phrase`,
  ]
    .filter(Boolean)
    .join(' · ');
}

/** How far it is to the next phrase one. */
export function leftWords(view: TrackView, at: Position): string {
  const last = at.bar.phrase === view.analysis.phrases.at(-1)?.number;
  return `${count(at.barsLeft, 'bar')} to ${last ? 'the end of the grid' : 'the next phrase one'}`;
}

/** What comes next and when: "in 3 bars (0:05): the drop lands: kick and bass in". */
export function nextWords(at: Position | null, moment: Moment | null, time: number): string {
  if (!moment) return 'nothing more until the end';
  const seconds = `0:00` === clock(moment.time - time, 0) ? 'now' : clock(moment.time - time, 0);
  const bars = at ? `in ${count(Math.max(moment.bar - at.bar.number, 1), 'bar')} (${seconds})` : `in ${seconds}`;
  return `${bars} · ${moment.words}`;
}
