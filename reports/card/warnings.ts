import type { TrackAnalysis } from '../../src/index.js';
import { cannotBeSet } from '../layout/direction.js';
import { printable } from '../layout/printable.js';
import type { Typesetter } from '../layout/typesetter.js';
import type { Style } from '../theme/index.js';
import { artistOf, titleOf } from './name.js';

/** Something about a piece that its reader should know; it is also printed on it. @public */
export interface PrintWarning {
  readonly code: 'missing-glyphs' | 'title-shortened' | 'right-to-left' | 'no-questions';
  readonly file: string;
  readonly message: string;
}

/** What a card could not print as it is given. `cut` is what did not fit on its front. */
export function cardWarnings(
  analysis: TrackAnalysis,
  cut: readonly string[],
  type: Typesetter,
  style: Style,
): readonly PrintWarning[] {
  const { file, tags } = analysis.source;
  const said = style.print.warnings;
  const warnings: PrintWarning[] = [];
  const add = (code: PrintWarning['code'], message: string) => warnings.push({ code, file, message });
  const missing = type.unprintable(printable(`${artistOf(analysis)} ${titleOf(analysis, style)}`));
  if (missing.length > 0) add('missing-glyphs', said.missingGlyphs(missing.length));
  if (cannotBeSet(`${tags.title ?? ''}${tags.artist ?? ''}`)) add('right-to-left', said.rightToLeft);
  if (cut.length > 0) add('title-shortened', said.titleShortened);
  return warnings;
}
