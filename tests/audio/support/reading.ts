import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';
import { startDecoder } from '../../../src/audio/decoder/client.js';
import { openAudio, type AudioFileInfo, type AudioWarning, type OpenOptions } from '../../../src/audio/index.js';

/** The decoders that run on this machine; the native one needs a system library that may be missing. */
export const DECODERS: readonly ('native' | 'wasm')[] = await (async () => {
  const decoder = startDecoder('', 'mp3', 'native');
  try {
    await decoder.engine;
    return ['native', 'wasm'] as const;
  } catch {
    return ['wasm'] as const;
  } finally {
    decoder.close();
  }
})();

/** A folder that goes away after the tests of the file. */
export function temporaryFolder(): { file(name: string, bytes?: Uint8Array): string; path: string } {
  const path = mkdtempSync(join(tmpdir(), 'barwise-audio-'));
  afterAll(() => rmSync(path, { recursive: true, force: true }));
  return {
    path,
    file(name, bytes) {
      const file = join(path, name);
      if (bytes) writeFileSync(file, bytes);
      return file;
    },
  };
}

/** The path of a file that is kept beside the tests. */
export function fixture(name: string): string {
  return new URL(`../fixtures/${name}`, import.meta.url).pathname;
}

export interface ReadFile {
  readonly info: AudioFileInfo;
  readonly channels: readonly Float32Array[];
  readonly warnings: readonly AudioWarning[];
}

/** Opens a file and reads it to its end, by the first decoder there is. */
export async function readWhole(file: string, options: OpenOptions = {}): Promise<ReadFile> {
  const { info, source, warnings } = await openAudio(file, { decoder: DECODERS[0], ...options });
  const blocks: (readonly Float32Array[])[] = [];
  for await (const block of source.blocks()) blocks.push(block.map((samples) => samples.slice()));
  const length = blocks.reduce((sum, block) => sum + block[0].length, 0);
  const channels = Array.from({ length: source.channels }, (_, c) => {
    const out = new Float32Array(length);
    let at = 0;
    for (const block of blocks) {
      out.set(block[c], at);
      at += block[c].length;
    }
    return out;
  });
  return { info, channels, warnings: warnings() };
}
