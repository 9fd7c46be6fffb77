import { join } from 'node:path';
import { findForm } from '../../../src/form/index.js';
import { findGrid } from '../../../src/rhythm/index.js';
import { cachedFrontEnd } from '../song-front-ends.js';
import type { Reported } from './verdicts.js';

/** What the present code reports on a song, with the numbers behind it. */
export function reportedOn(folder: string, id: string): Reported[] {
  const frontEnd = cachedFrontEnd(folder, id, join(folder, 'front-ends'));
  const grid = findGrid(frontEnd);
  return findForm(frontEnd, grid).irregularities.map((i) => {
    const { kind, time, bar, ...rest } = i;
    return { song: id, kind, time, bar, detail: rest };
  });
}
