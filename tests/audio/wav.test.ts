import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { encodeWav, openAudio, writeAtomically, writeWav } from '../../src/audio/index.js';
import { encodeAiff } from './support/encode.js';
import { readWhole, temporaryFolder } from './support/reading.js';
import { difference, noise, tone } from './support/signals.js';

const folder = temporaryFolder();
const left = noise(5001, 3);
const right = noise(5001, 4);

describe('writing and reading a WAV file', () => {
  it.each([
    [16, 0.5 / 32768],
    [24, 0.5 / 8388608],
    [32, 0],
  ] as const)('keeps the samples to half a step at %i bits', async (bitDepth, step) => {
    const file = folder.file(`round-${bitDepth}.wav`);
    await writeWav(file, [left, right], 48000, { bitDepth });
    const { info, channels } = await readWhole(file);
    expect(info).toMatchObject({ sampleRate: 48000, channels: 2, durationSeconds: 5001 / 48000 });
    expect(difference(channels[0], left)).toBeLessThanOrEqual(step * 1.0001);
    expect(difference(channels[1], right)).toBeLessThanOrEqual(step * 1.0001);
  });

  it('writes the header that the format asks for', () => {
    const bytes = Buffer.from(encodeWav([Float32Array.of(0, 0.5, -0.5)], 44100));
    expect(bytes.length).toBe(44 + 6);
    expect(bytes.toString('latin1', 0, 4)).toBe('RIFF');
    expect(bytes.readUInt32LE(4)).toBe(bytes.length - 8);
    expect(bytes.toString('latin1', 8, 16)).toBe('WAVEfmt ');
    expect([bytes.readUInt16LE(20), bytes.readUInt16LE(22), bytes.readUInt32LE(24)]).toEqual([1, 1, 44100]);
    expect([bytes.readUInt32LE(28), bytes.readUInt16LE(32), bytes.readUInt16LE(34)]).toEqual([88200, 2, 16]);
    expect(bytes.readUInt32LE(40)).toBe(6);
    expect([44, 46, 48].map((at) => bytes.readInt16LE(at))).toEqual([0, 16384, -16384]);
  });

  it('pads an odd number of bytes', () => {
    const bytes = Buffer.from(encodeWav([Float32Array.of(0.25)], 8000, { bitDepth: 24 }));
    expect(bytes.length).toBe(48);
    expect(bytes.readUInt32LE(40)).toBe(3);
    expect(bytes.readUInt32LE(4)).toBe(40);
  });

  it('clips integers and keeps floats beyond full scale', async () => {
    const loud = Float32Array.of(2, -2, 1, -1, NaN);
    const integers = Buffer.from(encodeWav([loud], 8000));
    expect([0, 1, 2, 3, 4].map((i) => integers.readInt16LE(44 + 2 * i))).toEqual([32767, -32768, 32767, -32768, 0]);
    const file = folder.file('loud.wav', encodeWav([loud], 8000, { bitDepth: 32 }));
    expect([...(await readWhole(file)).channels[0]]).toEqual([2, -2, 1, -1, 0]);
  });

  it('adds a dither that is triangular, two steps wide, and the same every time', () => {
    const silence = [new Float32Array(200000)];
    const dithered = Buffer.from(encodeWav(silence, 44100, { dither: true }));
    const steps = Array.from({ length: 200000 }, (_, i) => dithered.readInt16LE(44 + 2 * i));
    const share = (n: number) => steps.filter((s) => s === n).length / steps.length;
    // a triangle from -1 to 1 rounded: 3/4 of it falls on 0 and an eighth on either side
    expect(share(0)).toBeCloseTo(0.75, 2);
    expect(share(1)).toBeCloseTo(0.125, 2);
    expect(share(-1)).toBeCloseTo(0.125, 2);
    expect(dithered.equals(encodeWav(silence, 44100, { dither: true }))).toBe(true);
    expect(
      Buffer.from(encodeWav(silence, 44100))
        .subarray(44)
        .every((b) => b === 0),
    ).toBe(true);
  });

  it.each([
    ['no channel', () => encodeWav([], 44100)],
    ['channels of unequal length', () => encodeWav([new Float32Array(2), new Float32Array(3)], 44100)],
    ['a broken rate', () => encodeWav([new Float32Array(2)], 44100.5)],
  ])('refuses %s', (_, write) => {
    expect(write).toThrow(expect.objectContaining({ code: 'bad-option' }));
  });
});

describe('writing atomically', () => {
  it('leaves what stood there when it fails, and no temporary file', async () => {
    const file = folder.file('kept.bin', Uint8Array.of(1, 2, 3));
    const broken = [Uint8Array.of(9), null as unknown as Uint8Array];
    await expect(writeAtomically(file, broken)).rejects.toMatchObject({ code: 'cannot-write', file });
    expect([...readFileSync(file)]).toEqual([1, 2, 3]);
    expect(readdirSync(folder.path).filter((name) => name.endsWith('.tmp'))).toEqual([]);
  });

  it('says so when the folder is not there', async () => {
    const file = join(folder.path, 'nowhere', 'a.wav');
    await expect(writeWav(file, [left], 44100)).rejects.toThrow(
      `${file} could not be written (its folder does not exist): check the folder.`,
    );
  });
});

describe('reading other kinds of PCM', () => {
  const chunk = (id: string, body: Buffer) => {
    const head = Buffer.alloc(8);
    head.write(id, 'latin1');
    head.writeUInt32LE(body.length, 4);
    return Buffer.concat([head, body, Buffer.alloc(body.length & 1)]);
  };
  const format = (tag: number, bits: number, extra = Buffer.alloc(0)) => {
    const out = Buffer.alloc(16);
    out.writeUInt16LE(tag, 0);
    out.writeUInt16LE(1, 2);
    out.writeUInt32LE(8000, 4);
    out.writeUInt32LE((8000 * bits) / 8, 8);
    out.writeUInt16LE(bits / 8, 12);
    out.writeUInt16LE(bits, 14);
    return chunk('fmt ', Buffer.concat([out, extra]));
  };
  const riff = (...chunks: Buffer[]) => {
    const body = Buffer.concat([Buffer.from('WAVE'), ...chunks]);
    const head = Buffer.alloc(8);
    head.write('RIFF', 'latin1');
    head.writeUInt32LE(body.length, 4);
    return Buffer.concat([head, body]);
  };
  const read = async (name: string, bytes: Uint8Array) => [...(await readWhole(folder.file(name, bytes))).channels[0]];

  it('8 bits are unsigned', async () => {
    expect(await read('8.wav', riff(format(1, 8), chunk('data', Buffer.from([128, 0, 255, 192]))))).toEqual([
      0,
      -1,
      127 / 128,
      0.5,
    ]);
  });

  it('32-bit integers and 64-bit floats', async () => {
    const integers = Buffer.alloc(8);
    integers.writeInt32LE(-(2 ** 31), 0);
    integers.writeInt32LE(2 ** 30, 4);
    expect(await read('i32.wav', riff(format(1, 32), chunk('data', integers)))).toEqual([-1, 0.5]);
    const doubles = Buffer.alloc(16);
    doubles.writeDoubleLE(0.25, 0);
    doubles.writeDoubleLE(-0.75, 8);
    expect(await read('f64.wav', riff(format(3, 64), chunk('data', doubles)))).toEqual([0.25, -0.75]);
  });

  it('the extensible format, with chunks of others before the samples', async () => {
    const extra = Buffer.alloc(24);
    extra.writeUInt16LE(22, 0);
    extra.writeUInt16LE(16, 2);
    extra.writeUInt16LE(1, 8);
    const samples = Buffer.from([0, 0x40, 0, 0xc0]);
    const bytes = riff(chunk('LIST', Buffer.alloc(31)), format(0xfffe, 16, extra), chunk('data', samples));
    expect(await read('extensible.wav', bytes)).toEqual([0.5, -0.5]);
  });

  it('RF64, whose size stands in a chunk of its own', async () => {
    const sizes = Buffer.alloc(28);
    sizes.writeBigUInt64LE(4n, 8);
    const data = chunk('data', Buffer.from([0, 0x40, 0, 0xc0]));
    data.writeUInt32LE(0xffffffff, 4);
    const bytes = riff(chunk('ds64', sizes), format(1, 16), data, chunk('junk', Buffer.alloc(40)));
    bytes.write('RF64', 0, 'latin1');
    expect(await read('rf64.wav', bytes)).toEqual([0.5, -0.5]);
  });

  it('a WAV file whose size was never filled in', async () => {
    const bytes = riff(format(1, 16), chunk('data', Buffer.from([0, 0x40, 0, 0xc0])));
    bytes.writeUInt32LE(0, bytes.length - 8);
    const file = folder.file('open.wav', bytes);
    const { channels, warnings } = await readWhole(file);
    expect([...channels[0]]).toEqual([0.5, -0.5]);
    expect(warnings).toEqual([]);
  });

  it('little-endian AIFF-C', async () => {
    const plain = encodeAiff([Float32Array.of(0.5, -0.5)], 44100);
    const common = Buffer.concat([plain.subarray(12, 38), Buffer.from('sowt\0\0')]);
    common.writeUInt32BE(24, 4);
    const sound = Buffer.from(plain.subarray(38)).swap16();
    plain.copy(sound, 0, 38, 54);
    const head = Buffer.from(plain.subarray(0, 12));
    head.write('AIFC', 8, 'latin1');
    const bytes = Buffer.concat([head, common, sound]);
    bytes.writeUInt32BE(bytes.length - 8, 4);
    const [a, b] = await read('sowt.aiff', bytes);
    expect(a).toBeCloseTo(0.5, 4);
    expect(b).toBeCloseTo(-0.5, 4);
  });

  it('no samples at all is an empty source, not an error', async () => {
    const file = folder.file('none.wav', encodeWav([new Float32Array(0)], 44100));
    const { info } = await openAudio(file);
    expect(info.durationSeconds).toBe(0);
  });

  it('a long file comes in blocks', async () => {
    const file = folder.file('blocks.wav');
    writeFileSync(file, encodeWav([tone(44100, 5, 440)], 44100));
    const { source } = await openAudio(file);
    const lengths = [];
    for await (const block of source.blocks()) lengths.push(block[0].length);
    expect(Math.max(...lengths)).toBeLessThanOrEqual(65536);
    expect(lengths.reduce((a, b) => a + b)).toBe(220500);
  });
});
