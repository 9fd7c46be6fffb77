import { basename } from 'node:path';
import { readFile, stat } from 'node:fs/promises';
import { BarwiseError } from '../../units/index.js';
import { readJams } from '../jams/read.js';
import { readMidi } from '../midi/read.js';
import { countOfJams, countOfMidi, type ForeignCount } from './count.js';

/** Annotations larger than this are none. */
const LARGEST = 64 * 2 ** 20;
/** How a Standard MIDI File begins. */
const MIDI_HEAD = 'MThd';

/**
 * Reads how somebody else's program or person counts a track: JAMS or a Standard MIDI File, told apart by their content.
 *
 * @experimental
 * @param file path
 * @throws BarwiseError `file-missing`, `file-unreadable`, `too-long`, `damaged`, `unsupported-format`
 * @example correctionsOfCount(await readForeignCount('track.jams')).corrections
 */
export async function readForeignCount(file: string): Promise<ForeignCount> {
  const name = basename(file);
  const about = await stat(file).catch((cause: unknown) => {
    throw new BarwiseError('file-missing', `${file} is not there: give a JAMS or MIDI file.`, { file, cause });
  });
  if (!about.isFile())
    throw new BarwiseError('file-unreadable', `${file} is not a file: give a JAMS or MIDI file.`, { file });
  if (about.size > LARGEST)
    throw new BarwiseError('too-long', `${file} is too large for annotations: give another file.`, { file });
  const bytes = await readFile(file).catch((cause: unknown) => {
    throw new BarwiseError('file-unreadable', `${file} cannot be read: look at its permissions.`, { file, cause });
  });
  if (bytes.toString('latin1', 0, 4) === MIDI_HEAD) return countOfMidi(readMidi(bytes, name));
  return countOfJams(readJams(jsonOf(bytes, file), name));
}

function jsonOf(bytes: Buffer, file: string): unknown {
  try {
    return JSON.parse(bytes.toString('utf8').replace(/^\uFEFF/, '')) as unknown;
  } catch (cause) {
    throw new BarwiseError('damaged', `${file} is neither JAMS nor a Standard MIDI File: give one of them.`, {
      file,
      cause,
    });
  }
}
