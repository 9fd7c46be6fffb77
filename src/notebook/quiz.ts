import type { TrackAnalysis } from '../track/index.js';
import { clock } from '../units/index.js';
import { onTheOne, spokenTempo } from '../wording/index.js';
import { escapeHtml } from './markup.js';
import { groupsOf } from './counttable.js';
import type { Display } from './ready.js';

/** A question about a track, and its answer. @experimental */
export interface Question {
  readonly question: string;
  readonly answer: string;
}

/**
 * Questions that pupils can answer by ear, in the order of a lesson: pulse, phrases, what happens on the ones, breaks.
 * @experimental
 */
export function questionsFor(analysis: TrackAnalysis): Question[] {
  const { tempo, phrases, sections, irregularities, metre, bars } = analysis;
  const questions: Question[] = [
    {
      question: 'Tap the beat for a minute. What is the tempo?',
      answer: `${spokenTempo(tempo.bpm)} BPM`,
    },
    {
      question: `Count "1 2 3 4, 2 2 3 4 …" until something changes. How many bars is the usual phrase?`,
      answer: `${analysis.phraseBars} bars: ${groupsOf(analysis.phraseBars)}, ${analysis.phraseBars * metre.beatsPerBar} beats.`,
    },
  ];
  for (const section of sections.slice(1)) {
    const events = analysis.events.filter((event) => event.bar === section.startBar && event.beat === 1);
    const phrase = phrases.find((p) => p.startBar === section.startBar);
    if (!phrase) continue;
    questions.push({
      question: `What happens on the one of phrase ${phrase.number}, at ${clock(phrase.start, 0)}?`,
      answer: capital(onTheOne(section.function, events)),
    });
  }
  for (const odd of irregularities) {
    const place = bars.find((bar) => bar.number === odd.bar);
    const phrase = place ? phrases.find((p) => p.number === place.phrase) : undefined;
    questions.push({
      question: phrase
        ? `Something breaks the pattern in phrase ${phrase.number} (from ${clock(phrase.start, 0)}). Where, and what?`
        : 'Something breaks the pattern. Where, and what?',
      answer: odd.explanation,
    });
  }
  if (irregularities.length === 0)
    questions.push({ question: 'Does any phrase break the pattern?', answer: 'No: it keeps its pattern to the end.' });
  return questions;
}

/** The questions with their answers folded away, to be opened one by one. @experimental */
export function quiz(analysis: TrackAnalysis): Display {
  const questions = questionsFor(analysis);
  const items = questions.map(
    ({ question, answer }) =>
      `<li><p style="margin:0">${escapeHtml(question)}</p><details><summary>Answer</summary>${escapeHtml(answer)}</details></li>`,
  );
  const text = [
    ...questions.map(({ question }, i) => `${i + 1}. ${question}`),
    'Answers:',
    ...questions.map(({ answer }, i) => `${i + 1}. ${answer}`),
  ].join('\n');
  return { bundle: { 'text/html': `<ol class="barwise quiz">${items.join('')}</ol>`, 'text/plain': text } };
}

function capital(text: string): string {
  return text === '' ? 'Nothing enters or leaves.' : `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
