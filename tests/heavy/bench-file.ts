import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { encodeWav } from '../../src/audio/index.js';
import { randomArrangement, renderArrangement } from '../../src/arranger/index.js';
import { encodeMp3 } from '../../src/arranger/files/mp3.js';

const SEED = 11;

/** Makes (once) a stereo MP3 of some minutes, and the same as WAV: a drawn arrangement, started again where it ends. */
async function make(minutes: number): Promise<string> {
  const file = fileURLToPath(new URL(`../../demo/bench/${minutes}-minutes.mp3`, import.meta.url));
  const wav = file.replace(/mp3$/, 'wav');
  if (existsSync(file) && existsSync(wav)) return file;
  const { left, right, sampleRate } = renderArrangement(randomArrangement(SEED));
  const fill = (channel: Float32Array) => {
    const long = new Float32Array(minutes * 60 * sampleRate);
    for (let at = 0; at < long.length; at += channel.length) long.set(channel.subarray(0, long.length - at), at);
    return long;
  };
  const channels = [fill(left), fill(right)];
  const pieces = await encodeMp3({ left: channels[0], right: channels[1] });
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, Buffer.concat(pieces));
  writeFileSync(wav, encodeWav(channels, sampleRate));
  return file;
}

// Run on its own, so that rendering does not count as the benchmark's memory.
process.stdout.write(await make(Number(process.argv[2] ?? 6)));
