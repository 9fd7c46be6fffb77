import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { randomArrangement, renderArrangement } from '../../src/arranger/index.js';
import { encodeMp3 } from '../../src/arranger/files/mp3.js';

const SECONDS = 360;
const SEED = 11;

/** Makes (once) a stereo MP3 of six minutes: a drawn arrangement, started again where it ends. */
export async function sixMinutes(): Promise<string> {
  const file = fileURLToPath(new URL('../../demo/bench/six-minutes.mp3', import.meta.url));
  if (existsSync(file)) return file;
  const { left, right, sampleRate } = renderArrangement(randomArrangement(SEED));
  const fill = (channel: Float32Array) => {
    const long = new Float32Array(SECONDS * sampleRate);
    for (let at = 0; at < long.length; at += channel.length) long.set(channel.subarray(0, long.length - at), at);
    return long;
  };
  const pieces = await encodeMp3({ left: fill(left), right: fill(right) });
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, Buffer.concat(pieces));
  return file;
}

// Run on its own, so that rendering does not count as the benchmark's memory.
if (process.argv[1] === fileURLToPath(import.meta.url)) process.stdout.write(await sixMinutes());
