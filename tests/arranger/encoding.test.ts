import { createHash } from 'node:crypto';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { MPEGDecoder } from 'mpg123-decoder';
import { parseBuffer } from 'music-metadata';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { encodeFlac } from '../../src/arranger/files/flac.js';
import { crc16, infoFrame } from '../../src/arranger/files/info-frame.js';
import { encodeMp3 } from '../../src/arranger/files/mp3.js';
import { encodeOgg } from '../../src/arranger/files/ogg.js';
import { openAudio } from '../../src/audio/index.js';

const RATE = 44100;
const FRAMES = 2 * RATE + 17;
const click = new Float32Array(FRAMES);
for (let i = 0; i < 40; i++) click[RATE + i] = 0.8 * Math.exp(-i / 8);

let folder: string;
beforeAll(async () => void (folder = await mkdtemp(join(tmpdir(), 'barwise-encoding-'))));
afterAll(() => rm(folder, { recursive: true }));

async function decoded(name: string, parts: readonly Uint8Array[]): Promise<Float32Array> {
  const file = join(folder, name);
  await writeFile(file, Buffer.concat(parts));
  const { source } = await openAudio(file);
  const pieces: number[] = [];
  for await (const [left] of source.blocks()) for (const value of left) pieces.push(value);
  await source.close();
  return Float32Array.from(pieces);
}

function loudest(samples: Float32Array): number {
  return samples.reduce((best, value, i) => (Math.abs(value) > Math.abs(samples[best]) ? i : best), 0);
}

describe('an encoded click', () => {
  test.each([
    ['click.mp3', encodeMp3],
    ['click.ogg', encodeOgg],
    ['click.flac', encodeFlac],
  ] as const)('%s: lies where it was, and the length is kept to the sample', async (name, encode) => {
    const samples = await decoded(name, await encode({ left: click, right: click }));
    expect(samples).toHaveLength(FRAMES);
    expect(Math.abs(loudest(samples) - RATE)).toBeLessThanOrEqual(4);
  });

  test('flac: decodes to the very samples that went in, rounded to 16 bits', async () => {
    const samples = await decoded('same.flac', await encodeFlac({ left: click, right: click }));
    for (let i = 0; i < FRAMES; i++) expect(Math.abs(samples[i] - click[i])).toBeLessThan(2 / 32768);
  });
});

describe('the frame in front of an MP3', () => {
  test('its checksum is CRC-16/ARC: 0xBB3D for "123456789" (catalogue of parametrised CRC algorithms)', () => {
    expect(crc16(Buffer.from('123456789'))).toBe(0xbb3d);
  });

  test('carries the checksums of the music and of itself', async () => {
    const [frame, ...music] = await encodeMp3({ left: click, right: click });
    const view = new DataView(frame.buffer, frame.byteOffset);
    expect(view.getUint16(190)).toBe(crc16(frame.subarray(0, 190)));
    expect(view.getUint16(188)).toBe(crc16(Buffer.concat(music)));
    expect(view.getUint32(48)).toBe(frame.length + Buffer.concat(music).length);
  });

  test('mpg123 takes it for what it is and leaves out no music', async () => {
    const decoder = new MPEGDecoder({ enableGapless: true });
    await decoder.ready;
    const { channelData, samplesDecoded } = decoder.decode(
      Buffer.concat(await encodeMp3({ left: click, right: click })),
    );
    decoder.free();
    expect(samplesDecoded).toBeGreaterThanOrEqual(FRAMES);
    expect(Math.abs(loudest(channelData[0]) - RATE)).toBeLessThanOrEqual(4);
  });

  test('music-metadata reads constant bit rate, the encoder and the length from it', async () => {
    const { format } = await parseBuffer(Buffer.concat(await encodeMp3({ left: click, right: click })), 'audio/mpeg');
    expect(format.codecProfile).toBe('CBR');
    expect(format.bitrate).toBe(192000);
    expect(format.tool).toMatch(/^LAME 3\.100/);
    expect(Math.abs(format.duration! - FRAMES / RATE)).toBeLessThan(0.06);
  });

  test('is refused for what is no MPEG-1 layer III stream', () => {
    expect(() => infoFrame(new Uint8Array(500), 1000)).toThrow(
      'The MP3 encoder gave a stream that is not MPEG-1 layer III.',
    );
  });
});

describe('the stream info of a FLAC file', () => {
  test('music-metadata reads rate, depth and length from it', async () => {
    const { format } = await parseBuffer((await encodeFlac({ left: click, right: click }))[0], 'audio/flac');
    expect(format).toMatchObject({ sampleRate: RATE, bitsPerSample: 16, numberOfChannels: 2, duration: FRAMES / RATE });
  });

  test('carries the MD5 of the samples at byte 26 (RFC 9639, section 8.2)', async () => {
    const [file] = await encodeFlac({ left: click, right: click });
    const samples = Int16Array.from(click, (value) => Math.round(32767 * value));
    const both = Int16Array.from({ length: 2 * FRAMES }, (_, i) => samples[i >> 1]);
    const md5 = createHash('md5').update(Buffer.from(both.buffer)).digest('hex');
    expect(Buffer.from(file.subarray(26, 42)).toString('hex')).toBe(md5);
  });
});
