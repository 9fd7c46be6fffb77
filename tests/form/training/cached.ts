import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Arrangement, ArrangementTruth } from '../../../src/arranger/index.js';
import { FRONT_END_ID } from '../../../src/signal/index.js';
import { pack, unpack } from '../../corpus/song-front-ends.js';
import { arranged, trueGrid, type ArrangedTrack } from '../arranged.js';

/**
 * Renders arrangements once and keeps what was heard in a folder: rendering takes longer than everything after it. A
 * changed arranger needs an emptied folder.
 */
export function cachedArranged(folder: string): (arrangement: Arrangement) => ArrangedTrack {
  mkdirSync(folder, { recursive: true });
  return (arrangement) => {
    const name = createHash('sha256').update(JSON.stringify(arrangement)).digest('hex').slice(0, 16);
    const file = join(folder, `arranged-${name}.${FRONT_END_ID}`);
    if (existsSync(`${file}.json`)) {
      const truth = JSON.parse(readFileSync(`${file}.json`, 'utf8')) as ArrangementTruth;
      return { truth, frontEnd: unpack(readFileSync(`${file}.bin`)), grid: trueGrid(truth) };
    }
    const track = arranged(arrangement);
    keep(`${file}.bin`, pack(track.frontEnd));
    keep(`${file}.json`, JSON.stringify(track.truth));
    return track;
  };
}

/** Whole or not at all: two processes may fill one folder. */
function keep(file: string, content: string | Buffer): void {
  writeFileSync(`${file}.${process.pid}`, content);
  renameSync(`${file}.${process.pid}`, file);
}
