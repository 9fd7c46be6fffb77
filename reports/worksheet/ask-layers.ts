import { LAYERS, type Layer, type SectionFunction } from '../../src/index.js';
import { isDoubtful } from '../../src/ladder/index.js';
import { firstSection, named, place, type Maker, type Question, type Source } from './source.js';

/** Presences that nobody argues about. */
const CLEAR = { heard: 0.6, not: 0.25 } as const;

function change(kind: 'enters' | 'leaves', layers: readonly Layer[], source: Source): Question | null {
  const { track, style, pick } = source;
  const { worksheet } = style.print;
  const firsts = layers.flatMap((layer) => {
    const first = track.events.find((e) => e.layer === layer && e.change === kind);
    if (first === undefined || first.bar <= 1 || isDoubtful(first.confidence)) return [];
    const before = track.layers[layer].filter((_, i) => track.bars[i].number < first.bar);
    const clear = kind === 'leaves' || before.every((value) => value !== null && value <= CLEAR.not);
    return clear ? [first] : [];
  });
  const event = pick(firsts, `${kind} ${layers.join(' ')}`);
  if (event === undefined) return null;
  const layer = worksheet.layer(event.layer, style.words.layers[event.layer]);
  return { ask: worksheet.ask.change(layer, kind), answer: place(source, event.bar, event.time) };
}

export function enters(layers: readonly Layer[]): Maker {
  return (source) => change('enters', layers, source);
}

export function leaves(source: Source): Question | null {
  return change('leaves', ['kick', 'bass', 'percussion', 'voice'], source);
}

export function sectionStart(functions: readonly SectionFunction[]): Maker {
  return (source) => {
    const first = functions.flatMap((f) => firstSection(source, f) ?? []);
    const section = source.pick(
      first.filter((s) => s.startBar > 1),
      `section ${functions.join(' ')}`,
    );
    if (section === undefined) return null;
    const { ask } = source.style.print.worksheet;
    return {
      ask: ask.sectionStart(section.function, named(source, section.function)),
      answer: place(source, section.startBar, section.start),
    };
  };
}

export function heard({ track, style, pick }: Source): Question | null {
  const clear = track.phrases.flatMap((phrase) => {
    const index = track.bars.findIndex((b) => b.number === phrase.startBar);
    const presences = LAYERS.map((layer) => ({ layer, value: track.layers[layer][index] ?? null }));
    const sure = presences.every(({ value }) => value !== null && (value >= CLEAR.heard || value <= CLEAR.not));
    const on = presences.filter(({ value }) => value !== null && value >= CLEAR.heard).map(({ layer }) => layer);
    return sure && on.length > 0 ? [{ bar: phrase.startBar, on }] : [];
  });
  const chosen =
    pick(
      clear.filter((c) => c.bar > 1),
      'heard',
    ) ?? clear[0];
  if (chosen === undefined) return null;
  const { ask } = style.print.worksheet;
  return { ask: ask.heard(chosen.bar), answer: style.words.list(chosen.on.map((l) => style.words.layers[l])) };
}

export function room(which: 'intro' | 'outro'): Maker {
  return (source) => {
    const { track, style } = source;
    const section = which === 'intro' ? track.sections[0] : track.sections.at(-1);
    if (section === undefined || section.function !== which || isDoubtful(section.confidence)) return null;
    const bars = section.endBar - Math.max(section.startBar, 1) + 1;
    const seconds = which === 'intro' ? section.end - section.start : track.source.durationSeconds - section.start;
    const { ask, tell } = style.print.worksheet;
    return { ask: ask.room(which, named(source, which)), answer: tell.room(bars, style.words.clock(seconds, 0)) };
  };
}
