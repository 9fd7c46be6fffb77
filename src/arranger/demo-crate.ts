import { DEMO_FORMS_CALM } from './demo-forms-calm.js';
import { DEMO_FORMS_BRISK } from './demo-forms-brisk.js';
import type { DemoTrack } from './demo-track.js';

/** The place where all of it was "recorded": an evening class of our own invention. */
const ALBUM = 'The Ferry House Workshop: Second Term';
const YEAR = 2024;

/**
 * The demo crate: nine tracks of two to five minutes, each with something else to count.
 * @example demoCrate().length // 9
 */
export function demoCrate(): readonly DemoTrack[] {
  return [...DEMO_FORMS_CALM, ...DEMO_FORMS_BRISK].map((track, i) => ({
    ...track,
    name: `${String(i + 1).padStart(2, '0')}-${track.title.toLowerCase().replace(/[^a-z0-9]+/g, '-')}`,
    album: ALBUM,
    year: YEAR,
  }));
}
