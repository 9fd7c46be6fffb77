/** Boxes that hold boxes (ISO 14496-12). */
const HOLDERS = new Set(['moov', 'trak', 'mdia', 'minf', 'stbl']);
/** Boxes that may be left out: edits and groups of samples speak of the length as it was. */
const LEFT_OUT = new Set(['edts', 'sgpd', 'sbgp']);

interface Box {
  readonly type: string;
  readonly body: Buffer;
}

/**
 * An M4A file that plays the sound of a short one over and over: no encoder for AAC is at hand, and a track must be
 * longer than the shortest that is analysed.
 * @param times how often; the file has its index last, and one chunk
 */
export function longerM4a(file: Buffer, times: number): Buffer {
  const boxes = boxesOf(file);
  const [start, sound, index] = ['ftyp', 'mdat', 'moov'].map((type) => boxes.find((b) => b.type === type)!);
  const data = Buffer.concat(Array.from({ length: times }, () => sound.body));
  const head = box(start);
  return Buffer.concat([head, box({ type: 'mdat', body: data }), box(longer(index, times, head.length + 8))]);
}

function boxesOf(bytes: Buffer): Box[] {
  const found: Box[] = [];
  for (let at = 0; at + 8 <= bytes.length;) {
    const size = bytes.readUInt32BE(at);
    found.push({ type: bytes.toString('latin1', at + 4, at + 8), body: bytes.subarray(at + 8, at + size) });
    at += size;
  }
  return found;
}

function box({ type, body }: Box): Buffer {
  const head = Buffer.alloc(8);
  head.writeUInt32BE(8 + body.length);
  head.write(type, 4, 'latin1');
  return Buffer.concat([head, body]);
}

function longer({ type, body }: Box, times: number, place: number): Box {
  if (HOLDERS.has(type)) {
    const inner = boxesOf(body).filter((b) => !LEFT_OUT.has(b.type));
    return { type, body: Buffer.concat(inner.map((b) => box(longer(b, times, place)))) };
  }
  const out = Buffer.from(body);
  const multiply = (at: number) => out.writeUInt32BE(out.readUInt32BE(at) * times, at);
  if (type === 'mvhd' || type === 'mdhd') multiply(16);
  if (type === 'tkhd') multiply(20);
  if (type === 'stsc') multiply(12);
  if (type === 'stco') out.writeUInt32BE(place, 8);
  if (type === 'stsz') return { type, body: repeated(out, 8, times) };
  if (type === 'stts') return { type, body: repeated(out, 4, times) };
  return { type, body: out };
}

/** A table with its count of entries at a place, and its entries after that, so many times over. */
function repeated(body: Buffer, at: number, times: number): Buffer {
  const head = Buffer.from(body.subarray(0, at + 4));
  head.writeUInt32BE(head.readUInt32BE(at) * times, at);
  return Buffer.concat([head, ...Array.from({ length: times }, () => body.subarray(at + 4))]);
}
