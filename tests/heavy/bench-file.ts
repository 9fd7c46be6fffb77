import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { encodeWav } from '../../src/audio/index.js';
import { randomArrangement, renderArrangement } from '../../src/arranger/index.js';
import { encodeMp3 } from '../../src/arranger/files/mp3.js';

const SEED = 11;

/** Makes (once) a stereo MP3 of some minutes, and the same as WAV: a drawn arrangement, begun again with its bar one where its last bar begins. */
async function make(minutes: number): Promise<string> {
  const file = fileURLToPath(new URL(`../../demo/bench/${minutes}-minutes-in-bars.mp3`, import.meta.url));
  const wav = file.replace(/mp3$/, 'wav');
  if (existsSync(file) && existsSync(wav)) return file;
  const { left, right, sampleRate, truth } = renderArrangement(randomArrangement(SEED));
  const bars = truth.bars.filter((bar) => bar.number > 0);
  // Up to the one of the last bar: what rings after it would begin the next turn late.
  const [start, end] = [bars[0].start, bars[bars.length - 1].start].map((time) => time * sampleRate);
  const fill = (channel: Float32Array) => {
    const long = new Float32Array(minutes * 60 * sampleRate);
    for (let turn = 0; ; turn++) {
      const at = Math.round(turn * (end - start));
      if (at >= long.length) return long;
      long.set(channel.subarray(Math.round(start), Math.round(end)).subarray(0, long.length - at), at);
    }
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
