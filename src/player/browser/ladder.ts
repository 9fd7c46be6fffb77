import { layoutLadder, SCREEN_METRICS, scaleMetrics, type BarCell, type Rung } from '../../ladder/index.js';
import type { Position } from '../position.js';
import { phraseOf, type TrackView } from '../view.js';
import { drawLadder, drawLegend } from './pen.js';

const WIDEST = 1180;
const NARROW = 560;

/** The ladder on the page: drawn for the width there is, lit in time, clicked to jump. */
export interface LadderView {
  draw(view: TrackView): void;
  light(at: Position | null): void;
  /** Scrolls on when the music leaves a rung that is in sight for one that is not. Who looks elsewhere is left there. */
  follow(from: number, to: number): void;
}

/** `jump` gets the time of the bar or of phrase one that was clicked. */
export function createLadderView(host: HTMLElement, jump: (seconds: number) => void): LadderView {
  let view: TrackView | undefined;
  let drawing: SVGSVGElement | undefined;
  let cells = new Map<number, { cell: BarCell; rung: Rung }>();
  let lit: Position | null = null;

  const draw = () => {
    if (!view) return;
    const width = Math.min(host.clientWidth, WIDEST);
    if (width <= 0) return;
    const metrics = width < NARROW ? { ...scaleMetrics(SCREEN_METRICS, 0.86), labelWidth: 92 } : SCREEN_METRICS;
    const ladder = layoutLadder(view.analysis, { width, metrics });
    const page = ladder.pages[0];
    if (!page) return host.replaceChildren();
    cells = new Map(page.rungs.flatMap((rung) => rung.cells.map((cell) => [cell.bar, { cell, rung }] as const)));
    drawing = drawLadder(ladder, page);
    host.replaceChildren(drawing, drawLegend(ladder));
    light(lit);
  };

  const light = (at: Position | null) => {
    lit = at;
    if (!drawing) return;
    const place = at ? cells.get(at.bar.number) : undefined;
    drawing.classList.toggle('playing', place !== undefined);
    drawing.querySelector('.rung.current')?.classList.remove('current');
    if (!place || !at) return;
    const { cell, rung } = place;
    drawing.querySelector(`.rung[data-phrase="${rung.phrase}"][data-part="${rung.part}"]`)?.classList.add('current');
    drawing.dataset.nowBar = `${at.bar.number}`;
    setBox(drawing.querySelector('.now-bar')!, cell);
    setBox(drawing.querySelector('.now-rung')!, rung.block);
    const x = cell.x + (cell.width * (at.beat - at.bar.firstCount)) / at.bar.beats;
    setBox(drawing.querySelector('.now-beat')!, { x1: x, x2: x, y1: cell.y - 3, y2: cell.y + cell.height + 3 });
  };

  const timeOf = (target: Element): number | undefined => {
    const bar = target.getAttribute('data-bar');
    if (bar !== null) return view?.bars.find((b) => b.number === Number(bar))?.start;
    const phrase = target.closest('.rung')?.getAttribute('data-phrase');
    return phrase && view ? phraseOf(view, Number(phrase))?.start : undefined;
  };
  const act = (event: Event) => {
    const time = event.target instanceof Element ? timeOf(event.target) : undefined;
    if (time !== undefined) jump(time);
  };
  host.addEventListener('click', act);
  host.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    event.preventDefault();
    act(event);
  });
  new ResizeObserver(draw).observe(host);

  return {
    draw(next) {
      view = next;
      draw();
    },
    light,
    follow(from, to) {
      const rung = (phrase: number) =>
        drawing?.querySelector(`.rung[data-phrase="${phrase}"]`)?.getBoundingClientRect();
      const [before, now] = [rung(from), rung(to)];
      if (!now || (before && hidden(before) !== 0)) return;
      const by = hidden(now);
      if (by !== 0) scrollBy({ top: by, behavior: smoothness() });
    },
  };
}

function setBox(element: Element, box: object): void {
  for (const name of ['x', 'y', 'width', 'height', 'x1', 'x2', 'y1', 'y2'] as const) {
    const value = (box as Record<string, number>)[name];
    if (value !== undefined) element.setAttribute(name, `${value}`);
  }
}

/** How far the page must scroll to bring a box into sight, below the player that stays on top; 0 when it is. */
function hidden({ top, bottom }: DOMRect): number {
  const margin = 12;
  const stand = document.getElementById('stand')?.getBoundingClientRect();
  const first = Math.max(stand && stand.top < 1 ? stand.bottom : 0, 0) + margin;
  if (top < first) return top - first;
  // Scrolling down brings the rung to the upper third, so that it does not have to be done at every phrase.
  return bottom > innerHeight - margin ? top - first - (innerHeight - first) / 4 : 0;
}

function smoothness(): ScrollBehavior {
  return matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth';
}
