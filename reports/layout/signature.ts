import { createHash } from 'node:crypto';
import { crc32 } from 'node:zlib';

/** Written into every piece that Barwise makes; a file that carries it unchanged may be made anew. */
export const PRODUCER = 'Barwise printed pieces';

const digestOf = (bytes: string | Buffer): string => createHash('sha256').update(bytes).digest('hex');

const SVG_END = new RegExp(`<!-- ${PRODUCER} ([0-9a-f]{64}) -->\\n$`);

/** An SVG with a last line that says who made it, and a digest of all that stands before. */
export function signSvg(svg: string): Buffer {
  return Buffer.from(`${svg}<!-- ${PRODUCER} ${digestOf(svg)} -->\n`);
}

/** Bytes of the signature at the start of a PNG, and of a chunk beside its data. */
const PNG_START = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
const CHUNK_FRAME = 12;
const IEND_BYTES = CHUNK_FRAME;

/** A PNG with a text chunk before its end (ISO/IEC 15948, 11.3.4.3) that says the same. */
export function signPng(png: Buffer): Buffer {
  const body = png.subarray(0, png.length - IEND_BYTES);
  return Buffer.concat([body, textChunk(digestOf(body)), png.subarray(png.length - IEND_BYTES)]);
}

function textChunk(digest: string): Buffer {
  const data = Buffer.from(`tEXtSoftware\0${PRODUCER} ${digest}`, 'latin1');
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length - 4);
  sum.writeUInt32BE(crc32(data));
  return Buffer.concat([length, data, sum]);
}

/** Whether a file is a PDF, SVG or PNG of ours with nothing changed or added since. */
export function isOwn(bytes: Buffer): boolean {
  if (bytes.subarray(0, PNG_START.length).equals(PNG_START)) return isOwnPng(bytes);
  const text = bytes.toString('latin1');
  if (text.startsWith('%PDF-')) return isOwnPdf(text);
  const utf8 = bytes.toString('utf8');
  const [end, digest] = SVG_END.exec(utf8) ?? [];
  return end !== undefined && digestOf(utf8.slice(0, utf8.length - end.length)) === digest;
}

/** Changes by others are appended behind a second end mark, or the whole is written anew under another name. */
function isOwnPdf(text: string): boolean {
  const ends = text.split('%%EOF').length - 1;
  return text.includes(`<pdf:Producer>${PRODUCER}</pdf:Producer>`) && ends === 1 && /%%EOF\s*$/.test(text);
}

function isOwnPng(bytes: Buffer): boolean {
  const length = textChunk('0'.repeat(64)).length;
  const from = bytes.length - IEND_BYTES - length;
  if (from <= 0) return false;
  const expected = textChunk(digestOf(bytes.subarray(0, from)));
  return bytes.subarray(from, from + length).equals(expected);
}
