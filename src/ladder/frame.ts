import type { TrackAnalysis } from '../track/index.js';
import type { Fraction } from '../units/index.js';
import type { LadderMetrics, MeasureText } from './geometry.js';
import type { PatternBreaks } from './pattern.js';
import type { LadderWords } from './words.js';

/** What all rungs of a drawing share. */
export interface RungFrame {
  readonly analysis: TrackAnalysis;
  readonly breaks: PatternBreaks;
  readonly metrics: LadderMetrics;
  readonly measure: MeasureText;
  readonly words: LadderWords;
  readonly decimals: number;
  readonly presenceFrom: Fraction;
  readonly width: number;
  readonly leftEdge: number;
  readonly barWidth: number;
}
