import { readdirSync } from 'node:fs';
import { join, parse } from 'node:path';
import { BarwiseError } from '../units/index.js';
import { packageFolder } from './home.js';

/** Where the demo crate is written in a checkout. */
const DEMO_FOLDER = join('demo', 'crate');
const AUDIO = /^\.(wav|flac|mp3|ogg|m4a|aiff?)$/;

/**
 * The file of a track of the demo crate.
 * @experimental
 * @param name of the file, or how it ends, without the extension; by default the first track
 * @throws BarwiseError `file-missing` where the demo crate has not been made
 * @example demoTrack('rope-locker-lights')
 */
export function demoTrack(name = ''): string {
  const files = filesOfDemo();
  const found = files.find((file) => parse(file).name.endsWith(name));
  if (found !== undefined) return found;
  const what = files.length === 0 ? 'The demo crate has not been made yet' : `The demo crate has no track ${name}`;
  throw new BarwiseError('file-missing', `${what}: run \`npm run demo\` first, or name a file of your own.`);
}

/**
 * The files of the demo crate, in its order.
 * @experimental
 * @throws BarwiseError `file-missing` where the demo crate has not been made
 */
export function demoTracks(): string[] {
  demoTrack();
  return filesOfDemo();
}

function filesOfDemo(): string[] {
  return audioFiles(join(packageFolder(), DEMO_FOLDER)).sort();
}

function audioFiles(folder: string): string[] {
  try {
    return readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((file) => AUDIO.test(parse(file).ext))
      .map((file) => join(folder, file));
  } catch {
    return [];
  }
}
