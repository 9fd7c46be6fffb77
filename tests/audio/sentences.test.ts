import { chmodSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BarwiseError } from '../../src/units/index.js';
import { encodeWav, openAudio } from '../../src/audio/index.js';
import { encodeFlac, encodeMp3, encodeOgg } from './support/encode.js';
import { fixture, readWhole, temporaryFolder } from './support/reading.js';
import { click, noise } from './support/signals.js';

const folder = temporaryFolder();

async function refusal(file: string): Promise<BarwiseError> {
  const error: unknown = await readWhole(file).then(
    () => null,
    (e: unknown) => e,
  );
  expect(error).toBeInstanceOf(BarwiseError);
  expect((error as BarwiseError).file).toBe(file);
  // one sentence that ends with what to do
  expect((error as BarwiseError).message).toMatch(/^[^\n]*: [^\n.]*\.$/);
  return error as BarwiseError;
}

const garbage = Uint8Array.from(noise(100_000, 7), (x) => Math.floor((x + 1) * 1000) & 0xff);

describe('one clear sentence', () => {
  it('for a file that does not exist', async () => {
    const file = folder.file('nowhere.mp3');
    const error = await refusal(file);
    expect(error.code).toBe('file-missing');
    expect(error.message).toBe(`${file} does not exist: check the name.`);
  });

  it('for a folder', async () => {
    mkdirSync(join(folder.path, 'records'));
    expect(await refusal(join(folder.path, 'records'))).toMatchObject({ code: 'file-unreadable' });
  });

  it.skipIf(process.getuid?.() === 0)('for a file that may not be read', async () => {
    const file = folder.file('locked.wav', encodeWav([click(8000, 1.1)], 8000));
    chmodSync(file, 0);
    expect(await refusal(file)).toMatchObject({ code: 'file-unreadable' });
  });

  it('for an empty file', async () => {
    expect(await refusal(folder.file('empty.mp3', new Uint8Array(0)))).toMatchObject({ code: 'file-empty' });
  });

  it('for a text file with the name of an MP3', async () => {
    const file = folder.file(
      'text.mp3',
      new TextEncoder().encode('Dear diary, today I sorted my records.\n'.repeat(50)),
    );
    const error = await refusal(file);
    expect(error.code).toBe('not-audio');
    expect(error.message).toContain('is a text file');
  });

  it.each(['wav', 'aiff', 'flac', 'mp3', 'ogg', 'm4a'])('for garbage with the name of a %s file', async (extension) => {
    expect(await refusal(folder.file(`garbage.${extension}`, garbage))).toMatchObject({ code: 'not-audio' });
  });

  it.each([
    ['RIFF....WAVE', 'wav'],
    ['FORM....AIFF', 'aiff'],
    ['fLaC', 'flac'],
    ['OggS', 'ogg'],
    ['....ftypM4A ', 'm4a'],
  ])('for garbage behind the signature %s', async (signature, extension) => {
    const bytes = Uint8Array.from(garbage);
    bytes.set(new TextEncoder().encode(signature));
    expect(await refusal(folder.file(`signed.${extension}`, bytes))).toMatchObject({ code: 'damaged' });
  });

  it('for Opus', async () => {
    const error = await refusal(fixture('opus.ogg'));
    expect(error.code).toBe('unsupported-format');
    expect(error.message).toContain('Opus, and only Vorbis is read: convert it to FLAC or MP3.');
  });

  it.each([
    ['\x30\x26\xb2\x75', 'ASF (WMA)'],
    ['\x1a\x45\xdf\xa3', 'Matroska'],
    ['wvpk', 'WavPack'],
    ['MThd', 'MIDI'],
  ])('for another kind of audio', async (signature, what) => {
    const bytes = Uint8Array.from(garbage);
    bytes.set(Buffer.from(signature, 'latin1'));
    const error = await refusal(folder.file('other.mp3', bytes));
    expect(error.code).toBe('unsupported-format');
    expect(error.message).toContain(what);
  });

  it('for compressed samples in a WAV file', async () => {
    const bytes = encodeWav([click(8000, 1.1)], 8000);
    bytes[20] = 2; // ADPCM
    expect(await refusal(folder.file('adpcm.wav', bytes))).toMatchObject({ code: 'unsupported-format' });
  });

  it('for an unknown decoder', async () => {
    const file = folder.file('any.wav', encodeWav([click(8000, 1.1)], 8000));
    await expect(openAudio(file, { decoder: 'fast' as 'auto' })).rejects.toMatchObject({ code: 'bad-option' });
  });
});

describe('a file that is damaged anywhere', () => {
  it('gives samples or one clear sentence, whatever is wrong with it', async () => {
    const samples = [noise(22050).map((x) => x / 2)];
    const files = {
      wav: encodeWav(samples, 22050),
      flac: await encodeFlac(samples, 22050),
      mp3: await encodeMp3(samples, 22050),
      ogg: await encodeOgg(samples, 22050),
      m4a: readFileSync(fixture('click-index-first.m4a')),
    };
    let seed = 20;
    const random = (below: number) => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return Math.floor((seed / 2 ** 32) * below);
    };
    for (const [name, whole] of Object.entries(files)) {
      for (let round = 0; round < 5; round++) {
        const bytes = Uint8Array.from(whole.subarray(0, round === 4 ? random(whole.length) : whole.length));
        const reach = round === 0 ? 200 : bytes.length;
        for (let k = 0; k < 12; k++) bytes[random(Math.min(reach, bytes.length))] = random(256);
        const file = folder.file(`${round}.${name}`, bytes);
        const result = await readWhole(file).catch((e: unknown) => e);
        if (result instanceof Error) {
          expect(result, `${name} ${round}`).toBeInstanceOf(BarwiseError);
          continue;
        }
        const { info, channels } = result as Awaited<ReturnType<typeof readWhole>>;
        expect(channels[0].every((x) => Number.isFinite(x))).toBe(true);
        expect(channels[0].length).toBe(Math.round(info.durationSeconds * info.sampleRate));
      }
    }
  });
});

describe('the content decides, not the name', () => {
  it('for every format under the name of another', async () => {
    const samples = [click(44100, 1.2)];
    const files = {
      'wav.mp3': encodeWav(samples, 44100),
      'flac.wav': await encodeFlac(samples, 44100),
      'mp3.m4a': await encodeMp3(samples, 44100),
      'ogg.flac': await encodeOgg(samples, 44100),
      'm4a.ogg': readFileSync(fixture('click-index-last.m4a')),
    };
    const codecs = [];
    for (const [name, bytes] of Object.entries(files))
      codecs.push((await openAudio(folder.file(name, bytes))).info.codec);
    expect(codecs).toEqual(['WAV 16-bit', 'FLAC 16-bit', 'MP3', 'Ogg Vorbis', 'AAC']);
  });
});
