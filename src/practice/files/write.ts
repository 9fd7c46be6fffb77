import { extname } from 'node:path';
import { encodeAudio } from '../../arranger/index.js';
import { writeAtomically, writeFinished } from '../../audio/index.js';
import { BarwiseError, type RunOptions } from '../../units/index.js';
import { RATE } from '../sound/stereo.js';
import { id3Tag } from './id3.js';
import type { PracticeSound } from './marker.js';
import { wavWithCues } from './wav.js';

/** Formats of practice audio, by the ending of the file's name. @experimental */
export const PRACTICE_FORMATS = ['wav', 'flac', 'mp3'] as const;
/** One of `PRACTICE_FORMATS`. @experimental */
export type PracticeFormat = (typeof PRACTICE_FORMATS)[number];

/**
 * The format that a file's name asks for.
 * @experimental
 * @throws BarwiseError `bad-option` for any other ending
 */
export function practiceFormat(file: string): PracticeFormat {
  const ending = extname(file).slice(1).toLowerCase();
  const format = PRACTICE_FORMATS.find((f) => f === ending);
  if (format) return format;
  throw new BarwiseError('bad-option', `Practice audio cannot be called ${file}: give a name in .wav, .flac or .mp3.`);
}

/**
 * Writes practice audio with its cue points or chapters, title and comment: WAV (`cue `, `LIST`), MP3 (ID3v2 chapters), or
 * FLAC (Vorbis comments CHAPTERxxx). The name never holds half a file.
 * @experimental
 * @throws BarwiseError `bad-option`, `cannot-write`, `aborted`
 */
export async function writePractice(file: string, sound: PracticeSound, options: RunOptions = {}): Promise<void> {
  const { left, right } = sound;
  switch (practiceFormat(file)) {
    case 'wav':
      return writeAtomically(file, [wavWithCues(sound)]);
    case 'mp3': {
      const parts = await encodeAudio('mp3', { left, right }, options);
      return writeAtomically(file, [id3Tag(sound, (left.length / RATE) * 1000), ...parts]);
    }
    case 'flac':
      return writeFlac(file, sound, await encodeAudio('flac', { left, right }, options));
  }
}

async function writeFlac(file: string, sound: PracticeSound, parts: readonly Uint8Array[]): Promise<void> {
  await writeFinished(file, parts, async (passing) => {
    const { File, TagTypes } = await import('node-taglib-sharp');
    const tagged = File.createFromPath(passing);
    try {
      tagged.tag.title = sound.title;
      tagged.tag.comment = sound.comment;
      const comments = tagged.getTag(TagTypes.Xiph, true) as unknown as {
        setFieldAsStrings(name: string, ...values: string[]): void;
      };
      sound.markers.forEach(({ time, label }, i) => {
        const number = String(i + 1).padStart(3, '0');
        comments.setFieldAsStrings(`CHAPTER${number}`, clockOf(time));
        comments.setFieldAsStrings(`CHAPTER${number}NAME`, label);
      });
      tagged.save();
    } finally {
      tagged.dispose();
    }
  });
}

/** HH:MM:SS.mmm, as chapters in Vorbis comments are written. */
function clockOf(time: number): string {
  const milliseconds = Math.max(0, Math.round(time * 1000));
  const two = (value: number) => String(value).padStart(2, '0');
  const [hours, minutes] = [Math.floor(milliseconds / 3_600_000), Math.floor(milliseconds / 60_000) % 60];
  const seconds = ((milliseconds % 60_000) / 1000).toFixed(3).padStart(6, '0');
  return `${two(hours)}:${two(minutes)}:${seconds}`;
}
