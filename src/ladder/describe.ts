import type { LadderGeometry, Rung } from './geometry.js';
import type { LadderWords } from './words.js';
import { ENGLISH, rungTime } from './words.js';

/** The ladder read out, one sentence a rung: alternative text for those who cannot see it. */
export function describeLadder(geometry: LadderGeometry, words: LadderWords = ENGLISH): string {
  const rungs = geometry.pages.flatMap((p) => p.rungs);
  if (rungs.length === 0) return 'No bars were found.';
  const opening = `One row a phrase, usually ${geometry.phraseBars} bars of ${geometry.beatsPerBar} beats.`;
  return [opening, ...rungs.map((r) => rungSentence(r, geometry, words))].join(' ');
}

function rungSentence(rung: Rung, geometry: LadderGeometry, words: LadderWords): string {
  const name =
    rung.function === null ? 'Phrase' : capital(words.function(rung.function)) + (rung.functionDoubtful ? '?' : '');
  const layers = geometry.lanes.filter((l) => rung.letters.some((x) => x.layer === l)).reverse();
  const heard = layers.length === 0 ? 'nothing heard' : layers.map((l) => words.layer(l)).join(', ');
  const said = rung.texts.filter((t) => t.bold && t.role === 'accent').map((t) => t.text);
  const odd = said.length === 0 ? '' : `; ${said.join(' ')}`;
  const where = `bars ${rung.firstBar} to ${rung.lastBar} from ${rungTime(rung.start, 1)}`;
  return `${name}, ${where}: ${heard}${odd}.`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
