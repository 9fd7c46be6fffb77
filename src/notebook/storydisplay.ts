import { countRows, tellTrack, type StoryBreak, type TrackAnalysis } from '../track/index.js';
import { clock } from '../units/index.js';
import { wordsOf, type Language } from '../wording/index.js';
import { escapeHtml, htmlTable, textTable, type TableCell } from './markup.js';
import type { Display } from './ready.js';

/** Bars shown before and after the place that one looks at. */
const AROUND = 6;

/**
 * A track told in plain words: what happens on each one, where it leaves its pattern and why, and what is in doubt.
 * @experimental
 */
export function story(analysis: TrackAnalysis, language: Language = 'en'): Display {
  const told = tellTrack(analysis, language);
  const { headings } = wordsOf(language).story;
  const list = (items: readonly string[]) => `<ul>${items.map((t) => `<li>${escapeHtml(t)}</li>`).join('')}</ul>`;
  const part = (title: string, inner: string) => (inner === '' ? '' : `<h4>${escapeHtml(title)}</h4>${inner}`);
  const sections = told.sections.map(({ head, items }) => `<p><strong>${escapeHtml(head)}</strong></p>${list(items)}`);
  const html = [
    `<div class="barwise story"><h3>${escapeHtml(told.title)}</h3>`,
    ...told.opening.map((text) => `<p>${escapeHtml(text)}</p>`),
    told.corrected.length > 0 ? part(headings.corrected, list(told.corrected)) : '',
    part(headings.told, sections.join('')),
    part(headings.breaks, told.breaks.length > 0 ? breaksHtml(told.breaks) : `<p>${escapeHtml(told.noBreaks)}</p>`),
    part(headings.doubt, list(told.doubts)),
    '</div>',
  ].join('');
  const plain = [
    told.title,
    ...told.opening,
    ...told.sections.flatMap(({ head, items }) => [head, ...items.map((t) => `  ${t}`)]),
    ...told.breaks.flatMap(breakLines),
    ...told.doubts,
  ].join('\n');
  return { bundle: { 'text/html': html, 'text/plain': plain } };
}

/**
 * Where a track leaves its own pattern, each place with what speaks for it and the other way to count it.
 * @experimental
 */
export function breaks(analysis: TrackAnalysis, language: Language = 'en'): Display {
  const told = tellTrack(analysis, language);
  const { noBreaks } = told;
  if (told.breaks.length === 0)
    return { bundle: { 'text/html': `<p>${escapeHtml(noBreaks)}</p>`, 'text/plain': noBreaks } };
  return {
    bundle: { 'text/html': breaksHtml(told.breaks), 'text/plain': told.breaks.flatMap(breakLines).join('\n') },
  };
}

function breaksHtml(breaks: readonly StoryBreak[]): string {
  const items = breaks.map(({ sentence, doubt, evidence, alternative }) => {
    const more = [evidence, alternative].filter((text) => text !== null).map((text) => `<br>${escapeHtml(text)}`);
    return `<li>${escapeHtml(sentence)} (${escapeHtml(doubt)})${more.join('')}</li>`;
  });
  return `<ol>${items.join('')}</ol>`;
}

function breakLines({ sentence, doubt, evidence, alternative }: StoryBreak): string[] {
  return [`${sentence} (${doubt})`, ...[evidence, alternative].filter((text) => text !== null).map((t) => `  ${t}`)];
}

/**
 * Bar by bar around a place: time, count, phrase, section, and what happens.
 * @experimental
 * @param bar in the middle @param around bars before and after it, 6 by default
 */
export function barTable(analysis: TrackAnalysis, bar: number, around = AROUND): Display {
  const { columns, inPhrase } = sayings();
  const rows = countRows(analysis)
    .filter((row) => Math.abs(row.bar - bar) <= around)
    .map((row): TableCell[] => {
      const strong = row.phraseBar === 1;
      return [
        { text: `${row.bar}`, number: true, strong },
        { text: clock(row.time), number: true, strong },
        { text: row.count, strong },
        { text: inPhrase(row.phrase, row.phraseBar, row.phraseBars), strong },
        { text: row.section },
        { text: row.happens.join('; '), wrap: true },
      ];
    });
  const head: TableCell[] = [
    { text: columns.bar, number: true },
    { text: columns.time, number: true },
    { text: columns.count },
    { text: columns.phrase },
    { text: columns.section },
    { text: columns.happens },
  ];
  const caption = 'Bold: phrase one. Count: bar of the group · beat.';
  return { bundle: { 'text/html': htmlTable(caption, head, rows), 'text/plain': textTable(caption, head, rows) } };
}

function sayings() {
  const { story: words } = wordsOf('en');
  return { columns: words.columns, inPhrase: (p: number, b: number, n: number) => words.inPhrase(p, b, n) };
}
