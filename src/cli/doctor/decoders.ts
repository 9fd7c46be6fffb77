import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { encodeAudio } from '../../arranger/index.js';
import { openAudio, writeAtomically, type DecoderChoice } from '../../audio/index.js';
import { createKeyFinder } from '../../tonality/index.js';
import { ill, note, well, type Finding } from './finding.js';

const RATE = 44_100;
const FORMATS = ['mp3', 'flac', 'ogg'] as const;

/** Encodes a second of a tone in every format, decodes it in both ways, and asks for its key. */
export async function checkDecoders(): Promise<Finding[]> {
  const tone = Float32Array.from({ length: RATE }, (_, i) => 0.3 * Math.sin((2 * Math.PI * 440 * i) / RATE));
  const folder = await mkdtemp(join(tmpdir(), 'barwise-doctor-'));
  try {
    const failures: Record<Exclude<DecoderChoice, 'auto'>, string[]> = { native: [], wasm: [] };
    for (const format of FORMATS) {
      const file = join(folder, `tone.${format}`);
      await writeAtomically(file, await encodeAudio(format, { left: tone, right: tone }));
      for (const decoder of ['native', 'wasm'] as const) {
        const trouble = await troubleWith(file, decoder, tone.length);
        if (trouble) failures[decoder].push(`${format}: ${trouble}`);
      }
    }
    return [judgeNative(failures.native), judgeWasm(failures.wasm, failures.native), await checkKey(tone)];
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

function judgeNative(failed: readonly string[]): Finding {
  if (failed.length === 0) return well('fast decoders', FORMATS.join(', '));
  return note(
    'fast decoders',
    `not at hand (${failed[0]})`,
    'files are decoded all the same, only slower; on Debian: apt install libasound2',
  );
}

function judgeWasm(failed: readonly string[], native: readonly string[]): Finding {
  if (failed.length === 0) return well('portable decoders', FORMATS.join(', '));
  const found = `not at hand (${failed.join('; ')})`;
  return native.length === 0
    ? note('portable decoders', found, 'install Barwise again with npm; the fast ones do meanwhile')
    : ill('portable decoders', found, 'install Barwise again with npm');
}

/** What goes wrong when this file is decoded; `null` when as many frames come out as went in. */
async function troubleWith(file: string, decoder: DecoderChoice, frames: number): Promise<string | null> {
  try {
    const { source } = await openAudio(file, { decoder });
    let read = 0;
    for await (const block of source.blocks()) read += block[0].length;
    await source.close();
    return read === frames ? null : `${read} of ${frames} frames came out`;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

async function checkKey(tone: Float32Array): Promise<Finding> {
  try {
    const finder = createKeyFinder();
    finder.push(tone);
    await finder.finish();
    return well('key finder', 'starts');
  } catch (error) {
    return ill('key finder', `does not start (${(error as Error).message})`, 'install Barwise again with npm');
  }
}
