import { ALTERNATION_CUES, alternationCues } from './alternation.js';
import { BEAT_CUES, beatCues, type TempoCues } from './beat-cues.js';
import { CHANGE_CUES, changeCues } from './change-cues.js';
import type { Heard } from './heard.js';

/** Names of all cues of a reading of the beat, in the order of `readingCues`. */
export const READING_CUES: readonly string[] = [...BEAT_CUES, ...CHANGE_CUES, ...ALTERNATION_CUES];

/**
 * All cues of one reading of the beat.
 * @param bands onset curves of the four bands, smoothed
 * @param beats on the clock of the onsets
 */
export function readingCues(
  heard: Heard,
  bands: readonly Float32Array[],
  beats: Float64Array,
  tempo: TempoCues,
): number[] {
  return [
    ...beatCues(heard.onsets, bands, beats, tempo),
    ...changeCues(heard.spectrum, heard.chroma, beats.map(heard.toTime)),
    ...alternationCues(heard.onsets, bands, beats),
  ];
}
