import type { TrackAnalysis } from '../../src/index.js';
import { printable } from '../layout/fonts.js';
import type { Typesetter } from '../layout/typesetter.js';
import { artistOf, titleOf } from './facts.js';

/** Something about a card that its reader should know; it is also printed on the card. */
export interface PrintWarning {
  readonly code: 'missing-glyphs' | 'title-shortened';
  readonly file: string;
  readonly message: string;
}

/** What a card could not print as it is given. `cut` is what did not fit on its front. */
export function cardWarnings(
  analysis: TrackAnalysis,
  cut: readonly string[],
  type: Typesetter,
): readonly PrintWarning[] {
  const { file } = analysis.source;
  const warnings: PrintWarning[] = [];
  const missing = type.unprintable(printable(`${artistOf(analysis)} ${titleOf(analysis)} ${file}`));
  if (missing.length > 0) {
    const count = missing.length === 1 ? '1 character has' : `${missing.length} characters have`;
    const message = `In title, artist or file name ${count} no glyph in the fonts at hand; each is printed as an empty box.`;
    warnings.push({ code: 'missing-glyphs', file, message });
  }
  if (cut.length > 0) {
    const message = 'The title or artist is too long for the front and stands in full on the back.';
    warnings.push({ code: 'title-shortened', file, message });
  }
  return warnings;
}
