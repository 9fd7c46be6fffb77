import type { Paper } from '../layout/paper.js';
import type { Typesetter } from '../layout/typesetter.js';
import type { Style } from '../theme/index.js';

/** What all cards of a job share. */
export interface CardSetting {
  readonly paper: Paper;
  readonly type: Typesetter;
  readonly style: Style;
  /** Whether the words are printed that stand on the back; the ladder always is. */
  readonly back: boolean;
}
