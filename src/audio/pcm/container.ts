import type { ByteReader } from '../bytes.js';
import type { Container } from '../container.js';
import { readAiff } from './aiff.js';
import { sampleRange } from './layout.js';
import { pcmSource } from './source.js';
import { readWav } from './wav.js';

/** Opens a WAV or AIFF file; its samples are read straight from the disk. @param start position of its first chunk */
export async function openPcm(
  reader: ByteReader,
  file: string,
  kind: 'wav' | 'aiff',
  start: number,
): Promise<Container> {
  const layout = await (kind === 'wav' ? readWav : readAiff)(reader, file, start);
  return {
    codec: layout.codec,
    sampleRate: layout.sampleRate,
    channels: layout.channels,
    frames: layout.frames,
    digestParts: [layout.configuration, sampleRange(layout)],
    warnings: layout.warnings,
    source: (options) => pcmSource(file, layout, options),
  };
}
