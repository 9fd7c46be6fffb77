import { clock } from '../../units/index.js';
import type { TrackAnalysis } from '../../track/index.js';
import { viewOf } from '../view.js';
import { doubtQuestion, keyName, tempoDoubt } from '../../wording/index.js';
import { html, svg } from './dom.js';
import { titleOf, type State } from './state.js';

/** The crate as a list; `choose` gets the number of the track that was clicked. */
export function drawCrate(host: HTMLElement, state: State, choose: (track: number) => void): void {
  const focused = host.contains(document.activeElement);
  host.replaceChildren(
    ...state.data.tracks.map(({ readings }, i) => {
      const reading = readings[state.reading[i]];
      const doubt = state.reading[i] === 0 ? tempoDoubt(reading) : null;
      const button = html('button', { type: 'button', 'aria-current': i === state.track ? 'true' : null }, [
        thumbnail(reading),
        html('b', {}, [titleOf(viewOf(reading))]),
        html('span', {}, [reading.source.tags.artist ?? '']),
        html('span', { class: 'figures' }, [
          [
            doubt ? doubtQuestion(doubt) : reading.tempo.bpm.toFixed(1),
            keyWords(reading),
            clock(reading.source.durationSeconds, 0),
          ]
            .filter(Boolean)
            .join(' · '),
        ]),
      ]);
      button.addEventListener('click', () => choose(i));
      return html('li', {}, [button]);
    }),
  );
  if (focused) host.querySelector<HTMLElement>('[aria-current]')?.focus();
}

function keyWords({ key }: TrackAnalysis): string {
  return key.tonic && key.mode ? keyName(key.tonic, key.mode) : '';
}

const [WIDTH, HEIGHT] = [34, 40];

/** The ladder from afar: a line a phrase, as long as it has bars; what breaks the pattern stands out. */
function thumbnail({ phrases, phraseBars }: TrackAnalysis): SVGSVGElement {
  const step = Math.min(HEIGHT / Math.max(phrases.length, 1), 6);
  const unit = (WIDTH * 0.8) / phraseBars;
  const lines = phrases.map((p, i) => {
    const [y, x2] = [(i + 0.5) * step, Math.min(p.bars * unit, WIDTH)];
    return svg('line', {
      class: p.regular ? 'phrase' : 'phrase odd',
      x1: 0,
      x2,
      y1: y,
      y2: y,
      'stroke-width': step * 0.55,
    });
  });
  const edge = svg('line', {
    class: 'edge',
    x1: phraseBars * unit,
    x2: phraseBars * unit,
    y1: 0,
    y2: phrases.length * step,
  });
  return svg(
    'svg',
    { class: 'thumbnail', viewBox: `0 0 ${WIDTH} ${HEIGHT}`, width: WIDTH, height: HEIGHT, 'aria-hidden': 'true' },
    [...lines, edge],
  );
}
