import { isRight } from '../tap-pattern.js';
import type { TappedOne } from '../taps.js';
import { html, svg } from './dom.js';

/** Height of the picture, and how many beats early and late it shows. */
const HEIGHT = 132;
const REACH = 1;
const STEP = 34;

/** Every one as a column: how early or late its tap was, with the numbers in a table for who cannot see it. */
export function drawTaps(ones: readonly TappedOne[]): HTMLElement {
  const width = Math.max(ones.length * STEP + 60, 200);
  const middle = HEIGHT / 2 - 8;
  const y = (beats: number) => middle + (Math.max(-REACH, Math.min(REACH, beats)) / REACH) * (middle - 14);
  const line = (beats: number, label: string, look: string) => [
    svg('line', { x1: 52, x2: width, y1: y(beats), y2: y(beats), class: look }),
    svg('text', { x: 46, y: y(beats) + 4, class: 'scale', 'text-anchor': 'end' }, [label]),
  ];
  const marks = ones.flatMap((one, i) => {
    const x = 60 + i * STEP + STEP / 2 - 8;
    const label = svg('text', { x, y: HEIGHT - 4, 'text-anchor': 'middle', class: 'scale' }, [`${one.bar}`]);
    if (one.errorBeats === null) {
      const cross = `M${x - 5},${middle - 5}l10,10m0,-10l-10,10`;
      return [svg('path', { d: cross, class: 'missed' }), label];
    }
    const at = y(one.errorBeats);
    const stem = svg('line', { x1: x, x2: x, y1: middle, y2: at, class: 'stem' });
    if (isRight(one)) return [stem, svg('circle', { cx: x, cy: at, r: 5, class: 'tap' }), label];
    const up = one.errorBeats < 0;
    const arrow = `M${x - 6},${at + (up ? 5 : -5)}h12l-6,${up ? -11 : 11}z`;
    return [stem, svg('path', { d: arrow, class: 'off' }), label];
  });
  const picture = svg(
    'svg',
    {
      viewBox: `0 0 ${width} ${HEIGHT}`,
      width,
      height: HEIGHT,
      role: 'img',
      'aria-label': 'How early or late each tap was, in beats',
    },
    [...line(-0.5, '½ early', 'guide'), ...line(0, 'on it', 'middle'), ...line(0.5, '½ late', 'guide'), ...marks],
  );
  const key = html('p', { class: 'quiet' }, [
    'Bar numbers below. A dot: on the right beat; an arrow: nearer another beat; a cross: no tap.',
  ]);
  return html('figure', { class: 'taps' }, [
    html('div', { class: 'scroll', tabindex: '0', role: 'group', 'aria-label': 'Taps' }, [picture]),
    key,
    tableOf(ones),
  ]);
}

function tableOf(ones: readonly TappedOne[]): HTMLElement {
  const row = (cells: readonly string[], tag: 'td' | 'th') =>
    html(
      'tr',
      {},
      cells.map((text) => html(tag, tag === 'th' ? { scope: 'col' } : {}, [text])),
    );
  const signed = (value: number, digits: number) => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(digits)}`;
  return html('details', {}, [
    html('summary', {}, ['The numbers']),
    html('table', {}, [
      html('thead', {}, [row(['bar', 'ms', 'beats'], 'th')]),
      html(
        'tbody',
        {},
        ones.map((one) =>
          row(
            one.errorBeats === null
              ? [`${one.bar}`, '–', 'no tap']
              : [`${one.bar}`, signed(one.errorSeconds! * 1000, 0), signed(one.errorBeats, 2)],
            'td',
          ),
        ),
      ),
    ]),
  ]);
}
