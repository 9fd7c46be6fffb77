import {
  layoutLegend,
  measureText,
  paintLadder,
  paintLegend,
  type LadderGeometry,
  type LadderPage,
  type LadderPen,
} from '../../ladder/index.js';
import { svg } from './dom.js';

/**
 * Draws a ladder as SVG. Colours come from the style sheet by the name of the ink, so that a bright screen, a dark room
 * and paper share one drawing. Rungs can be focused and pressed; their words are their names.
 */
export function drawLadder(ladder: LadderGeometry, page: LadderPage): SVGSVGElement {
  const drawing = svg('svg', {
    class: 'rungs',
    viewBox: `0 0 ${ladder.width} ${page.height}`,
    width: ladder.width,
    height: page.height,
    role: 'group',
    'aria-label': 'A rung a phrase, a cell a bar; press a rung to go to its phrase one',
  });
  drawing.append(svg('rect', { class: 'now-rung', rx: 3 }), svg('rect', { class: 'now-bar' }));
  paintLadder(ladder, page, penOn(drawing));
  drawing.append(svg('line', { class: 'now-beat' }));
  return drawing;
}

/** The legend of the layers, as wide as the ladder. */
export function drawLegend(ladder: LadderGeometry): SVGSVGElement {
  const { entries, height } = layoutLegend(ladder, measureText);
  const drawing = svg('svg', {
    class: 'legend',
    width: ladder.width,
    height,
    viewBox: `0 0 ${ladder.width} ${height}`,
  });
  paintLegend(ladder, entries, penOn(drawing));
  return drawing;
}

function penOn(drawing: SVGSVGElement): LadderPen {
  let group: SVGElement = drawing;
  return {
    path(d, { fill, stroke, width, round, dash }) {
      const classes = [fill ? `fill-${fill}` : 'no-fill', stroke && `stroke-${stroke}`].filter(Boolean).join(' ');
      const cap = round ? 'round' : null;
      group.append(
        svg('path', {
          class: classes,
          d,
          'stroke-width': width,
          'stroke-linecap': cap,
          'stroke-dasharray': dash?.join(' '),
        }),
      );
    },
    text({ text, x, y, size, bold, anchor, role }) {
      const weight = bold ? 700 : 400;
      // The letters of the layers stand for the eye; read out they would only be in the way.
      const letter = anchor === 'middle' && text.length === 1 ? 'true' : null;
      const type = { 'font-size': size, 'font-weight': weight, 'text-anchor': anchor };
      group.append(svg('text', { class: `fill-${role}`, x, y, 'aria-hidden': letter, ...type }, [text]));
    },
    bar({ bar, x, y, width, height }) {
      group.append(svg('rect', { class: 'bar', 'data-bar': bar, x, y, width, height }));
    },
    openRung(rung) {
      const { x, y, width, height } = rung.block;
      const press = rung.part === 1 ? { role: 'button', tabindex: 0 } : {};
      group = svg('g', { class: 'rung', 'data-phrase': rung.phrase, 'data-part': rung.part, ...press }, [
        svg('rect', { class: 'reach', x, y, width, height, rx: 3 }),
      ]);
      drawing.append(group);
    },
    closeRung: () => (group = drawing),
  };
}
