import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openAudio } from '../../src/audio/index.js';
import { openBytes } from '../../src/audio/bytes.js';
import { startDecoder } from '../../src/audio/decoder/client.js';
import { openMp3 } from '../../src/audio/mp3/container.js';
import { collectWarnings } from '../../src/audio/warnings.js';
import { encodeFlac, encodeMp3, encodeOgg } from './support/encode.js';
import { DECODERS, readWhole, temporaryFolder } from './support/reading.js';
import { difference, noise } from './support/signals.js';

const RATE = 22050;
const folder = temporaryFolder();
const long = noise(RATE * 60);
const song = folder.file('long.mp3', await encodeMp3([long], RATE, 64));

describe('the decoding process', () => {
  it('may be killed: the reader gets an error and goes on living', async () => {
    const decoder = startDecoder(song, 'mp3', DECODERS[0]);
    expect(await decoder.engine).toBe(DECODERS[0]);
    const answer = decoder.decode(new Uint8Array(1000), RATE);
    process.kill(decoder.pid!, 'SIGKILL');
    const first = await answer.catch((e: unknown) => e);
    const second: unknown = await decoder.decode(new Uint8Array(1000), RATE).catch((e: unknown) => e);
    // the first question may have been answered just before the end
    if (first !== null) expect(first).toMatchObject({ code: 'decoder-failed' });
    expect(second).toMatchObject({ code: 'decoder-failed', file: song });
    expect((second as Error).message).toBe(
      `The decoder broke down on ${song} (signal SIGKILL): copy the file again or convert it to WAV.`,
    );
  });

  it('says that a piece cannot be decoded and takes the next one', async () => {
    const decoder = startDecoder(song, 'flac', DECODERS[0]);
    const good = await encodeFlac([long.subarray(0, RATE)], RATE);
    expect(await decoder.decode(new Uint8Array(5000).fill(7), RATE)).toBeNull();
    const decoded = await decoder.decode(good, RATE);
    expect(decoded?.channels[0].length).toBe(RATE);
    expect(decoded?.sampleRate).toBe(RATE);
    decoder.close();
  });

  it('ends when the source is closed before its end, twice if need be', async () => {
    const { source } = await openAudio(song);
    for await (const block of source.blocks()) {
      expect(block[0].length).toBeGreaterThan(0);
      break;
    }
    await source.close();
    await source.close();
  });
});

describe('an abort signal', () => {
  it('stops the reading', async () => {
    const controller = new AbortController();
    const { source } = await openAudio(song, { signal: controller.signal });
    let blocks = 0;
    const reading = (async () => {
      for await (const block of source.blocks()) if (block && ++blocks === 2) controller.abort();
    })();
    await expect(reading).rejects.toMatchObject({ code: 'aborted' });
    expect(blocks).toBe(2);
  });

  it('stops the opening', async () => {
    await expect(openAudio(song, { signal: AbortSignal.abort() })).rejects.toMatchObject({ code: 'aborted' });
  });
});

describe('reading in pieces', () => {
  it('gives what decoding the whole file at once gives', async () => {
    const ogg = folder.file('long.ogg', await encodeOgg([long], RATE));
    for (const [file, codec, skip] of [
      [song, 'mp3', 576 + 529],
      [ogg, 'vorbis', 0],
    ] as const) {
      const decoder = startDecoder(file, codec, DECODERS[0]);
      const whole = (await decoder.decode(readFileSync(file), RATE))!.channels[0].subarray(skip);
      decoder.close();
      const { channels } = await readWhole(file);
      expect(channels[0].length).toBeGreaterThan(2 * 2 ** 19);
      expect(Math.abs(whole.length - channels[0].length)).toBeLessThan(1024);
      expect(difference(channels[0], whole)).toBeLessThan(1e-6);
    }
    const flac = await readWhole(folder.file('long.flac', await encodeFlac([long], RATE)));
    expect(flac.channels[0].length).toBe(long.length);
    expect(difference(flac.channels[0], long)).toBeLessThan(1.6 / 32768);
  });

  it('reports its progress up to the end', async () => {
    const steps: number[] = [];
    await readWhole(song, { onProgress: ({ done }) => steps.push(done) });
    expect(steps.length).toBeGreaterThan(1);
    expect(steps.at(-1)).toBe(1);
    expect(steps).toEqual([...steps].sort((a, b) => a - b));
  });
});

/** Reads a file with another program in the place of the decoding process. */
async function readWith(worker: string, decoder: 'auto' | 'native') {
  const warnings = collectWarnings();
  const reader = await openBytes(song);
  const container = await openMp3(reader, song, 0);
  await reader.close();
  let frames = 0;
  for await (const block of container.source({ decoder, warnings, worker }).blocks()) frames += block[0].length;
  return { frames, expected: container.frames, warnings: warnings.all };
}

const program = (name: string) => new URL(`./support/${name}`, import.meta.url).pathname;

describe('where the native decoder cannot be loaded', () => {
  it('the other one takes over, and a warning names the package that brings the faster one', async () => {
    const { frames, expected, warnings } = await readWith(program('without-native.mjs'), 'auto');
    expect(frames).toBe(expected);
    expect(warnings).toEqual([
      {
        code: 'slow-decoder',
        message:
          'The slower built-in decoder is used: the faster one needs ' +
          'the system library libasound.so.2 (Debian: apt install libasound2).',
      },
    ]);
  });

  it('asking for it is refused, and the sentence names the package', async () => {
    await expect(readWith(program('without-native.mjs'), 'native')).rejects.toMatchObject({
      code: 'missing-package',
      message: expect.stringContaining('apt install libasound2') as string,
    });
  });

  it('choosing the other one by hand draws no warning', async () => {
    expect((await readWhole(song, { decoder: 'wasm' })).warnings).toEqual([]);
  });
});

describe('a decoding process that dies', () => {
  it('after its first piece ends the reading with an error', async () => {
    await expect(readWith(program('dies-early.mjs'), 'auto')).rejects.toMatchObject({
      code: 'decoder-failed',
      message: expect.stringContaining('(signal SIGKILL)') as string,
    });
  });
});
