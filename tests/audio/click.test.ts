import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeWav } from '../../src/audio/index.js';
import { encodeAiff, encodeFlac, encodeMp3, encodeOgg } from './support/encode.js';
import { DECODERS, fixture, readWhole, temporaryFolder } from './support/reading.js';
import { click, difference, findClick } from './support/signals.js';

const RATE = 44100;
const LENGTH = 1.5;
const one = click(RATE, LENGTH);
const folder = temporaryFolder();
const half = one.map((x) => x / 2);

const MADE: Record<string, () => Uint8Array | Promise<Uint8Array>> = {
  'click-16.wav': () => encodeWav([one, half], RATE),
  'click-24.wav': () => encodeWav([one, half], RATE, { bitDepth: 24 }),
  'click-float.wav': () => encodeWav([one, half], RATE, { bitDepth: 32 }),
  'click.aiff': () => encodeAiff([one, half], RATE),
  'click.flac': () => encodeFlac([one, half], RATE),
  'click.mp3': () => encodeMp3([one, half], RATE),
  'click.ogg': () => encodeOgg([one, half], RATE),
};
const KEPT = ['click-with-tag.mp3', 'click-index-first.m4a', 'click-index-last.m4a', 'click.aac'];

async function place(name: string): Promise<string> {
  return MADE[name] ? folder.file(name, await MADE[name]()) : fixture(name);
}

describe('a click at 1.000 s is found within a millisecond', () => {
  for (const name of [...Object.keys(MADE), ...KEPT]) {
    for (const decoder of DECODERS) {
      it(`in ${name} by the ${decoder} decoder`, async () => {
        const { info, channels } = await readWhole(await place(name), { decoder });
        expect(Math.abs(findClick(channels[0], RATE) - 1)).toBeLessThan(0.001);
        expect(info.sampleRate).toBe(RATE);
        expect(channels[0].length / RATE).toBeCloseTo(info.durationSeconds, 6);
        // formats that state their length give exactly that; a bare stream keeps its padding
        const states = !['click.mp3', 'click.aac'].includes(name);
        if (states) expect(info.durationSeconds).toBeCloseTo(LENGTH, 3);
        else expect(info.durationSeconds).toBeGreaterThan(LENGTH - 0.001);
      });
    }
  }
});

describe.skipIf(DECODERS.length < 2)('the two decoders', () => {
  for (const name of [...Object.keys(MADE).slice(4), ...KEPT]) {
    it(`land on the same sample of ${name}`, async () => {
      const file = await place(name);
      const [native, wasm] = await Promise.all([
        readWhole(file, { decoder: 'native' }),
        readWhole(file, { decoder: 'wasm' }),
      ]);
      expect(wasm.channels.length).toBe(native.channels.length);
      expect(wasm.channels[0].length).toBe(native.channels[0].length);
      native.channels.forEach((samples, c) => expect(difference(samples, wasm.channels[c])).toBeLessThan(2e-4));
    });
  }
});

describe('the delay of an M4A file', () => {
  it('is read from the gapless comment when there is no edit list', async () => {
    const plain = readFileSync(fixture('click-index-last.m4a'));
    const file = folder.file('comment.m4a', withGaplessComment(plain, 1024, Math.round(LENGTH * RATE)));
    const { info, channels } = await readWhole(file);
    expect(Math.abs(findClick(channels[0], RATE) - 1)).toBeLessThan(0.001);
    expect(channels[0].length).toBe(Math.round(LENGTH * RATE));
    expect(info.durationSeconds).toBe(LENGTH);
    // the delay is taken from the comment and not from habit: another one moves the click
    const other = folder.file('comment-2112.m4a', withGaplessComment(plain, 2112, 60000));
    const moved = await readWhole(other);
    expect(findClick(moved.channels[0], RATE, 0.975)).toBeCloseTo(1 - (2112 - 1024) / RATE, 4);
  });
});

/** Turns the edit list into free space and adds a comment to the index at the end of the file. */
function withGaplessComment(mp4: Buffer, delay: number, length: number): Buffer {
  const out = Buffer.from(mp4);
  out.write('free', out.indexOf('edts'), 'latin1');
  const hex = (n: number) => n.toString(16).toUpperCase().padStart(8, '0');
  const value = Buffer.from(` 00000000 ${hex(delay)} 00000000 00000000${hex(length)} 00000000 00000000`);
  const box = (type: string, ...content: Buffer[]) => {
    const body = Buffer.concat(content);
    const head = Buffer.alloc(8);
    head.writeUInt32BE(body.length + 8);
    head.write(type, 4, 'latin1');
    return Buffer.concat([head, body]);
  };
  const flags = Buffer.alloc(4);
  const comment = box(
    '----',
    box('mean', flags, Buffer.from('of our own')),
    box('name', flags, Buffer.from('iTunSMPB')),
    box('data', Buffer.from([0, 0, 0, 1]), flags, value),
  );
  const added = box('udta', box('meta', flags, box('ilst', comment)));
  const moov = out.indexOf('moov') - 4;
  // what stood in the index before is hidden, so that the comment is the first of its kind
  const old = out.indexOf('udta', moov);
  if (old > 0) out.write('free', old, 'latin1');
  out.writeUInt32BE(out.readUInt32BE(moov) + added.length, moov);
  return Buffer.concat([out, added]);
}
