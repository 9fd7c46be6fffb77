import type { LadderGeometry, Rung } from './geometry.js';
import { ENGLISH, type LadderWords } from './words.js';

/** The ladder read out, one sentence a rung: alternative text for those who cannot see it. */
export function describeLadder(geometry: LadderGeometry, words: LadderWords = ENGLISH): string {
  const rungs = geometry.pages.flatMap((p) => p.rungs);
  if (rungs.length === 0) return words.noBars;
  return [
    words.opening(geometry.phraseBars, geometry.beatsPerBar),
    ...rungs.map((r) => rungSentence(r, geometry, words)),
  ].join(' ');
}

function rungSentence(rung: Rung, geometry: LadderGeometry, words: LadderWords): string {
  const layers = geometry.lanes.filter((l) => rung.letters.some((x) => x.layer === l)).reverse();
  return words.rung({
    name: rung.function === null ? null : words.function(rung.function),
    doubtful: rung.function !== null && rung.functionDoubtful,
    firstBar: rung.firstBar,
    lastBar: rung.lastBar,
    start: words.time(rung.start, 1),
    layers: layers.map((l) => words.layer(l)),
    remarks: rung.texts.filter((t) => t.bold && t.role === 'accent').map((t) => t.text),
  });
}
