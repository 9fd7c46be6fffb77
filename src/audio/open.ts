import { BarwiseError, throwIfAborted, type RunOptions } from '../units/index.js';
import { openAdts } from './aac/container.js';
import { openBytes, type ByteReader } from './bytes.js';
import type { Container, DecoderChoice } from './container.js';
import { digestOf } from './digest.js';
import { openFlac } from './flac/container.js';
import { checkLimits } from './limits.js';
import { openMp4 } from './mp4/container.js';
import { openMp3 } from './mp3/container.js';
import { openOgg } from './ogg/container.js';
import { openPcm } from './pcm/container.js';
import { sniff, type Sniffed } from './sniff.js';
import type { AudioFileInfo, AudioSource, AudioWarning } from './source.js';
import { readTags } from './tags.js';
import { collectWarnings } from './warnings.js';

export interface OpenOptions extends RunOptions {
  /** `auto` (default, or what the environment variable BARWISE_DECODER says), `native` or `wasm`. */
  readonly decoder?: DecoderChoice | undefined;
  /** Called once for every warning as it becomes known; the last ones come while the samples are read. */
  readonly onWarning?: ((warning: AudioWarning) => void) | undefined;
}

export interface OpenedAudio {
  readonly info: AudioFileInfo;
  readonly source: AudioSource;
  /** The warnings known so far; complete once the samples are read. */
  readonly warnings: () => readonly AudioWarning[];
}

/**
 * Opens an audio file: WAV, AIFF, FLAC, MP3, Ogg Vorbis, AAC/M4A, 8 to 192 kHz, one to six channels, up to three hours.
 * The kind is told by the content. Samples come at the file's own rate with encoder delay and padding trimmed; opening
 * reads the file once for its digest, the samples are decoded when `source.blocks()` is read.
 * @param file path of the file; its name and extension do not matter
 * @example
 * const { info, source, warnings } = await openAudio('demo/crate/01-slack-water.wav');
 * for await (const [left, right] of source.blocks()) console.log(info.sampleRate, left.length, right.length);
 * console.log(warnings());
 * @throws BarwiseError `file-missing`, `file-unreadable`, `file-empty`, `not-audio`, `unsupported-format`, `damaged`,
 * `too-long`, `bad-option`, `aborted`; reading the blocks: `damaged`, `decoder-failed`, `missing-package`, `aborted`
 */
export async function openAudio(file: string, options: OpenOptions = {}): Promise<OpenedAudio> {
  const decoder = decoderChoice(options.decoder);
  const warnings = collectWarnings(options.onWarning);
  throwIfAborted(options.signal);
  const reader = await openBytes(file, options.signal);
  try {
    const sniffed = await sniff(reader, file);
    const container = await openContainer(reader, file, sniffed);
    checkLimits(file, container);
    const audioDigest = await digestOf(reader, container.digestParts, options.signal);
    const tags = await readTags(file, sniffed.kind);
    container.warnings.forEach((w) => warnings.add(w));
    const { sampleRate, channels, codec, frames } = container;
    return {
      info: { file, audioDigest, durationSeconds: frames / sampleRate, sampleRate, channels, codec, tags },
      source: container.source({ decoder, warnings, onProgress: options.onProgress, signal: options.signal }),
      warnings: () => warnings.all,
    };
  } finally {
    await reader.close();
  }
}

function openContainer(reader: ByteReader, file: string, sniffed: Sniffed): Promise<Container> {
  switch (sniffed.kind) {
    case 'wav':
    case 'aiff':
      return openPcm(reader, file, sniffed.kind, sniffed.start);
    case 'flac':
      return openFlac(reader, file, sniffed.start);
    case 'ogg':
      return openOgg(reader, file, sniffed.start);
    case 'mp3':
      return openMp3(reader, file, sniffed.start);
    case 'mp4':
      return openMp4(reader, file);
    case 'adts':
      return openAdts(reader, file, sniffed.start);
  }
}

function decoderChoice(wanted: string | undefined): DecoderChoice {
  const choice = wanted ?? process.env['BARWISE_DECODER'] ?? 'auto';
  if (choice === 'auto' || choice === 'native' || choice === 'wasm') return choice;
  throw new BarwiseError('bad-option', `"${choice}" is no decoder: use auto, native or wasm.`);
}
