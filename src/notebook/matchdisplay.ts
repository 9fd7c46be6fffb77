import { encodeAudio } from '../arranger/index.js';
import type { MatchPlan, TrackMatch } from '../matching/index.js';
import type { Practice } from '../practice/index.js';
import type { RunOptions } from '../units/index.js';
import {
  changeWords,
  isOpening,
  matchWordsOf,
  onTheOne,
  planOpening,
  wordsOf,
  type Language,
} from '../wording/index.js';
import { escapeHtml, htmlTable, textTable, type TableCell } from './markup.js';
import { PLAYER_MARK } from './player.js';
import type { Display } from './ready.js';

/** A plan in words: what speaks for it and what to mind. @experimental */
export function planStory(match: TrackMatch, plan: MatchPlan, language: Language = 'en'): Display {
  const words = matchWordsOf(language);
  const opening = planOpening(plan, 'B', words);
  const parts = [
    { title: words.headings.why, said: plan.reasons.map(words.remark) },
    {
      title: words.headings.against,
      said: [...match.obstacles, ...plan.cautions.filter((r) => !isOpening(r))].map(words.remark),
    },
  ].filter(({ said }) => said.length > 0);
  const html = [
    '<div class="barwise plan">',
    ...opening.map((text, i) => `<p>${i === 0 ? `<strong>${escapeHtml(text)}</strong>` : escapeHtml(text)}</p>`),
    ...parts.map(
      ({ title, said }) =>
        `<h4>${escapeHtml(title)}</h4><ul>${said.map((t) => `<li>${escapeHtml(t)}</li>`).join('')}</ul>`,
    ),
    '</div>',
  ].join('');
  const plain = [...opening, ...parts.flatMap(({ title, said }) => [title, ...said.map((t) => `  ${t}`)])].join('\n');
  return { bundle: { 'text/html': html, 'text/plain': plain } };
}

/** Each one of the overlap in both records, what is done on it, and how much of A is left. @experimental */
export function planTable(plan: MatchPlan, language: Language = 'en'): Display {
  const words = wordsOf(language);
  const { headings, actions, nothing } = matchWordsOf(language);
  const happens = (one: MatchPlan['steps'][number]['a']): string =>
    one === null
      ? ''
      : one.section === null
        ? changeWords(one.changes, language).join(', ')
        : onTheOne(one.section, one.changes, language);
  const head = ['A', words.story.columns.time, 'B', headings.barsLeft, headings.timeLeft, headings.do, 'A', 'B'];
  const rows = plan.steps.map(({ a, b, actions: todo, barsLeft, timeLeft }) => {
    const [inA, inB] = [happens(a), happens(b)];
    return [
      { text: a === null ? '–' : `${a.bar}`, number: true, strong: todo.length > 0 },
      { text: a === null ? '–' : words.clock(a.time), number: true },
      { text: b === null ? '–' : `${b.bar}`, number: true, strong: todo.length > 0 },
      { text: `${barsLeft}`, number: true },
      { text: words.clock(timeLeft, 0), number: true },
      { text: todo.map((t) => actions[t]).join(', '), strong: true },
      { text: inA === '' && inB === '' ? nothing : inA, wrap: true },
      { text: inB, wrap: true },
    ] satisfies TableCell[];
  });
  const heads: TableCell[] = head.map((text, i) => ({ text, number: i < 5 }));
  const caption = headings.ones;
  return {
    bundle: { 'text/html': htmlTable(caption, heads, rows), 'text/plain': textTable(caption, heads, rows) },
  };
}

/**
 * Practice audio to be heard in the notebook, with its chapters and the caution about loud sound beside it.
 * @experimental
 */
export async function listen({ sound }: Practice, options: RunOptions = {}): Promise<Display> {
  const parts = await encodeAudio('mp3', { left: sound.left, right: sound.right }, options);
  const data = Buffer.concat(parts).toString('base64');
  const words = wordsOf('en');
  const marks = sound.markers.map(({ time, label }) => `${words.clock(time, 0)} ${label}`);
  const html =
    `<figure ${PLAYER_MARK} style="margin:0"><figcaption><strong>${escapeHtml(sound.title)}</strong>: ${escapeHtml(marks.join('; '))}</figcaption>` +
    `<audio controls preload="metadata" style="width:100%" src="data:audio/mpeg;base64,${data}"></audio>` +
    `<p>${escapeHtml(sound.comment)}</p></figure>`;
  return { bundle: { 'text/html': html, 'text/plain': [sound.title, ...marks].join('\n') } };
}
