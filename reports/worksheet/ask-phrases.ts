import { isDoubtful } from '../../src/ladder/index.js';
import { barsBetween, beatsOf, type Question, type Source } from './source.js';

/** A list of ones longer than this is no question any more. */
const MOST_ONES = 24;

export function usualPhrase({ track, style }: Source): Question | null {
  if (track.phrases.length === 0) return null;
  const { ask, tell } = style.print.worksheet;
  return { ask: ask.usualPhrase, answer: tell.length(track.phraseBars, track.phraseBars * track.metre.beatsPerBar) };
}

export function phraseLength(source: Source): Question | null {
  const { track, style, pick } = source;
  const sure = track.phrases.filter(
    (p) => !isDoubtful(p.confidence) && p.number > 1 && p.number < track.phrases.length,
  );
  const phrase = pick(sure, 'length');
  if (phrase === undefined) return null;
  const { ask, tell } = style.print.worksheet;
  return {
    ask: ask.phraseLength(phrase.number),
    answer: tell.length(phrase.bars, beatsOf(barsBetween(source, phrase.startBar, phrase.endBar + 1))),
  };
}

/** Every phrase out of the pattern, in words. */
function oddOnes({ track, style }: Source): readonly string[] {
  const last = track.phrases.at(-1);
  return track.phrases
    .filter((p) => !p.regular)
    .map((p) => {
      const told = track.irregularities.find((i) => i.parameters.endBar === p.endBar && 'usualBars' in i.parameters);
      const usual = Number(told?.parameters.usualBars ?? track.phraseBars);
      return style.print.worksheet.tell.odd(p.number, p.bars, usual, p === last ? null : p.endBar + 1);
    });
}

export function oddPhrases(source: Source): Question | null {
  const odd = oddOnes(source);
  if (odd.length !== 1 || oddBars(source).length > 0) return breaks(source);
  return { ask: source.style.print.worksheet.ask.oddPhrase, answer: odd[0] };
}

export function breaks(source: Source): Question | null {
  const { track, style } = source;
  // Where a beat is missing, the count begins anew though every phrase has its bars.
  if (oddBars(source).length > 0) return null;
  if (track.phrases.length < 2 || track.phrases.some((p) => isDoubtful(p.confidence))) return null;
  const odd = oddOnes(source);
  const { ask, tell } = style.print.worksheet;
  return { ask: ask.breaks, answer: odd.length === 0 ? tell.noOdd : odd.join('; ') };
}

export function ones({ track, style }: Source): Question | null {
  const sure = track.phrases.every((p) => !isDoubtful(p.confidence));
  if (!sure || track.phrases.length < 2 || track.phrases.length > MOST_ONES) return null;
  const { ask, tell } = style.print.worksheet;
  return { ask: ask.ones, answer: tell.ones(track.phrases.map((p) => p.startBar)) };
}

/** Bars with more or fewer beats than the metre says; a track may stop inside its last one, and lead in before bar 1. */
const oddBars = ({ track }: Source) =>
  track.bars.slice(0, -1).filter((b) => b.number >= 1 && b.beats !== track.metre.beatsPerBar);

export function oddBar(source: Source): Question | null {
  const [bar, ...more] = oddBars(source);
  if (bar === undefined || more.length > 0) return null;
  const { ask, tell } = source.style.print.worksheet;
  return { ask: ask.oddBar(), answer: tell.oddBar(bar.number, bar.beats) };
}
