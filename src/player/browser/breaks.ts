import { clock } from '../../units/index.js';
import type { TrackView } from '../view.js';
import { doubtWord } from '../../wording/index.js';
import { html } from './dom.js';

/** How many bars before an irregularity one wants to hear, to notice it. */
const RUN_UP_BARS = 4;

/** Where the track leaves its own pattern, in words, each with a way to hear it. */
export function drawBreaks(host: HTMLElement, view: TrackView, jump: (seconds: number) => void): void {
  const { irregularities } = view.analysis;
  if (irregularities.length === 0) {
    host.replaceChildren(
      html('h2', {}, ['Out of pattern']),
      html('p', {}, ['Nothing: every phrase of this track has a length that fits its pattern.']),
    );
    return;
  }
  const items = irregularities.map((irregularity) => {
    const start = runUp(view, irregularity.time);
    const hear = html('button', { type: 'button' }, [`hear it from ${clock(start, 0)}`]);
    hear.addEventListener('click', () => jump(start));
    return html('li', {}, [
      html('p', {}, [irregularity.explanation]),
      html('p', { class: 'hear' }, [
        hear,
        ` bar ${irregularity.bar} · ${clock(irregularity.time)} · ${doubtWord(irregularity.confidence)}`,
      ]),
    ]);
  });
  host.replaceChildren(html('h2', {}, ['Out of pattern']), html('ol', {}, items));
}

function runUp(view: TrackView, time: number): number {
  const at = view.barStarts.findIndex((s) => s > time - 0.01);
  return view.barStarts[Math.max((at < 0 ? view.bars.length : at) - RUN_UP_BARS, 0)] ?? 0;
}
