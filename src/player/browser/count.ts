import { clock } from '../../units/index.js';
import { nextMoment, positionAt, type Position } from '../position.js';
import type { TrackView } from '../view.js';
import { byId, html, setText } from './dom.js';
import { leftWords, nextWords, whereWords } from './words.js';

/** The count in big figures, the group as a row of beats, and the words beside them. */
export interface CountView {
  /** Shows the moment; gives the position shown. */
  show(view: TrackView, time: number): Position | null;
}

export function createCountView(): CountView {
  const [groupBar, beat, group] = [byId('group-bar'), byId('beat'), byId('group')];
  const [bar, left, next, stand] = [byId('where-bar'), byId('where-left'), byId('where-next'), byId('stand')];
  let shape = '';

  const drawGroup = (view: TrackView, at: Position | null) => {
    const bars = at
      ? view.bars.filter((b) => b.group === at.bar.group && b.phrase === at.bar.phrase)
      : view.bars.slice(0, 4);
    const wanted = bars.map((b) => b.firstCount + b.beats - 1).join();
    if (wanted !== shape) {
      shape = wanted;
      const boxes = bars.map((b) =>
        html(
          'span',
          { class: 'box' },
          Array.from({ length: b.firstCount + b.beats - 1 }, () => html('i')),
        ),
      );
      group.replaceChildren(...boxes);
    }
    const here = at ? bars.findIndex((b) => b.number === at.bar.number) : -1;
    [...group.children].forEach((box, i) => {
      box.classList.toggle('current', i === here);
      [...box.children].forEach((mark, j) => mark.classList.toggle('lit', i < here || (i === here && j < at!.beat)));
    });
  };

  return {
    show(view, time) {
      const at = positionAt(view, time);
      setText(groupBar, at ? `${at.bar.groupBar}` : '–');
      setText(beat, at ? `${at.beat}` : '–');
      stand.dataset.one =
        at?.beat === 1 ? (at.bar.phraseBar === 1 ? 'phrase' : at.bar.groupBar === 1 ? 'group' : 'bar') : '';
      drawGroup(view, at);
      setText(bar, at ? `${clock(time)} · ${whereWords(view, at)}` : outsideWords(view, time));
      setText(left, at ? leftWords(view, at) : '');
      setText(next, nextWords(at, nextMoment(view, time), time));
      return at;
    },
  };
}

function outsideWords(view: TrackView, time: number): string {
  const first = view.bars[0]?.start ?? 0;
  return time < first ? `${clock(time)} · bar 1 in ${clock(first - time)}` : `${clock(time)} · after the last bar`;
}
