import { BarwiseError } from '../../units/index.js';
import type { ByteRange, ByteReader } from '../bytes.js';
import type { Container } from '../container.js';
import { pieceSource } from '../decoder/source.js';
import { truncated } from '../warnings.js';
import { readHeaders } from './headers.js';
import { oggPieces } from './pieces.js';
import { walkOgg, type AudioPage } from './walk.js';

/** Opens an Ogg Vorbis file. @param start position of its first page */
export async function openOgg(reader: ByteReader, file: string, start: number): Promise<Container> {
  const head = await readHeaders(reader, file, start);
  const { pages, complete } = await walkOgg(reader, head);
  if (pages.length === 0) {
    throw new BarwiseError('damaged', `${file} is an Ogg file without audio: copy the file again.`, { file });
  }
  const { sampleRate, channels } = head.setup;
  const origin = originOf(pages);
  const skip = Math.max(0, -origin);
  const frames = Math.max(0, pages[pages.length - 1].end - origin - skip);
  const list = { codec: 'vorbis', sampleRate, channels, skip, frames, pieces: oggPieces(head, pages, origin) } as const;
  return {
    codec: 'Ogg Vorbis',
    sampleRate,
    channels,
    frames,
    digestParts: [...head.packets, ...pages.map(bodyOf)],
    warnings: complete ? [] : [truncated(null, frames / sampleRate)],
    source: (options) => pieceSource(file, list, options),
  };
}

/**
 * Granule of the first frame that is decoded. It is below 0 when samples at the start are to be dropped, and above 0 in a
 * recording that began in the middle of a broadcast (Vorbis I specification, A.2).
 */
function originOf(pages: readonly AudioPage[]): number {
  const first = pages.findIndex((page) => page.page.granule !== null);
  if (first < 0) return 0;
  // on a stream of one page a smaller count means that the end is to be dropped
  if (pages[first].page.last) return 0;
  return pages[first].end - pages.slice(0, first + 1).reduce((sum, page) => sum + page.frames, 0);
}

/** A page's packets without its header, which changes when tags grow. */
function bodyOf({ page }: AudioPage): ByteRange {
  return { offset: page.offset + page.headerLength, length: page.length - page.headerLength };
}
