import type { AnalysisBar, AnalysisPhrase, AnalysisSection } from '../track/index.js';

/** A bar of a track, found by its place. */
export interface CountedBar extends AnalysisBar {
  /** Index of its first beat. */
  readonly firstBeat: number;
  readonly section: AnalysisSection | null;
  /** The phrase it starts, if it starts one; and the section. */
  readonly startsPhrase: AnalysisPhrase | null;
  readonly startsSection: AnalysisSection | null;
}
