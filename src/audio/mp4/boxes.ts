import { text, viewOf, type ByteReader } from '../bytes.js';

/** A box of an MP4 file (ISO/IEC 14496-12, 4.2), by the position of its content. */
export interface Box {
  readonly type: string;
  readonly offset: number;
  readonly length: number;
  /** The content's end lies beyond the end of the file. */
  readonly cut: boolean;
}

/** The boxes on the top level of a file. */
export async function topBoxes(reader: ByteReader): Promise<Box[]> {
  const boxes: Box[] = [];
  for (let at = 0; at + 8 <= reader.size;) {
    const box = boxAt(await reader.copy(at, 16), 0, reader.size - at);
    if (!box) break;
    const offset = at + box.offset;
    boxes.push({ ...box, offset, length: Math.min(box.length, reader.size - offset) });
    at = offset + box.length;
  }
  return boxes;
}

/** The boxes inside a stretch of bytes. */
export function boxesIn(bytes: Uint8Array, from = 0): Box[] {
  const boxes: Box[] = [];
  for (let at = from; at + 8 <= bytes.length;) {
    const box = boxAt(bytes, at, bytes.length - at);
    if (!box || box.cut) break;
    boxes.push(box);
    at = box.offset + box.length;
  }
  return boxes;
}

/** Content of the box at the end of a path of types, the first of each; `null` where there is none. */
export function contentOf(bytes: Uint8Array, ...path: string[]): Uint8Array | null {
  let content = bytes;
  for (const type of path) {
    const box = boxesIn(content).find((b) => b.type === type);
    if (!box) return null;
    content = content.subarray(box.offset, box.offset + box.length);
  }
  return content;
}

function boxAt(bytes: Uint8Array, at: number, left: number): Box | null {
  const view = viewOf(bytes);
  const short = view.getUint32(at, false);
  const type = text(bytes, at + 4);
  if (!/^[\x20-\x7e\xa9]{4}$/.test(type)) return null;
  const long = short === 1 && at + 16 <= bytes.length;
  const head = long ? 16 : 8;
  const size = short === 0 ? left : long ? Number(view.getBigUint64(at + 8, false)) : short;
  if (size < head) return null;
  return { type, offset: at + head, length: size - head, cut: size > left };
}
