import type { PracticeSound } from './marker.js';

const UTF8 = 3;

/**
 * An ID3v2.4 tag with title, comment and chapters: ID3v2.4.0 native frames (id3.org 2000) and "ID3v2 Chapter Frame
 * Addendum" 1.0 (id3.org 2005): a CTOC frame that lists the CHAP frames, each with its title.
 * @param durationMs length of the sound in milliseconds, where the last chapter ends
 */
export function id3Tag({ title, comment, markers }: Omit<PracticeSound, 'left' | 'right'>, durationMs: number): Buffer {
  const chapters = markers.map(({ time, label }, i) => {
    const start = Math.round(time * 1000);
    const end = i + 1 < markers.length ? Math.round(markers[i + 1].time * 1000) : Math.round(durationMs);
    return frame('CHAP', [
      name(`chp${i}`),
      big(start),
      big(end),
      big(0xffffffff),
      big(0xffffffff),
      textFrame('TIT2', label),
    ]);
  });
  const contents =
    markers.length === 0
      ? []
      : // top level, ordered
        [frame('CTOC', [name('toc'), Buffer.from([3, markers.length]), ...markers.map((_, i) => name(`chp${i}`))])];
  const frames = Buffer.concat([
    textFrame('TIT2', title),
    textFrame('TSSE', 'Barwise'),
    frame('COMM', [
      Buffer.from([UTF8]),
      Buffer.from('eng'),
      Buffer.from([0]),
      Buffer.from(comment, 'utf8'),
      Buffer.from([0]),
    ]),
    ...contents,
    ...chapters,
  ]);
  return Buffer.concat([Buffer.from('ID3'), Buffer.from([4, 0, 0]), syncsafe(frames.length), frames]);
}

function frame(id: string, parts: readonly Buffer[]): Buffer {
  const body = Buffer.concat(parts);
  return Buffer.concat([Buffer.from(id), syncsafe(body.length), Buffer.from([0, 0]), body]);
}

function textFrame(id: string, text: string): Buffer {
  return frame(id, [Buffer.from([UTF8]), Buffer.from(text, 'utf8'), Buffer.from([0])]);
}

const name = (id: string): Buffer => Buffer.from(`${id}\0`, 'latin1');

function big(value: number): Buffer {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(value);
  return bytes;
}

/** A length in seven bits a byte (ID3v2.4.0 structure, 6.2). */
function syncsafe(value: number): Buffer {
  return Buffer.from([(value >>> 21) & 127, (value >>> 14) & 127, (value >>> 7) & 127, value & 127]);
}
