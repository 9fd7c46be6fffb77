import { BarwiseError, type Hertz, type Seconds } from '../units/index.js';
import { seconds } from './warnings.js';

/** Sample rates that are read. */
export const RATE_RANGE: readonly [Hertz, Hertz] = [8000, 192000];
/** Channels that are read: mono to 5.1. */
export const MAX_CHANNELS = 6;
/** The longest file that is read. */
export const MAX_DURATION: Seconds = 3 * 3600;

/**
 * Checks what the headers say.
 * @throws BarwiseError `unsupported-format` for other rates and more channels, `too-long` beyond three hours
 */
export function checkLimits(file: string, found: { sampleRate: Hertz; channels: number; frames: number }): void {
  const { sampleRate, channels, frames } = found;
  if (!(sampleRate >= RATE_RANGE[0] && sampleRate <= RATE_RANGE[1])) {
    throw new BarwiseError(
      'unsupported-format',
      `${file} has a sample rate of ${sampleRate} Hz, and only 8000 to 192000 Hz are read: convert it to 44100 Hz.`,
      { file },
    );
  }
  if (!(channels >= 1 && channels <= MAX_CHANNELS)) {
    throw new BarwiseError(
      'unsupported-format',
      `${file} has ${channels} channels, and only 1 to ${MAX_CHANNELS} are read: mix it down to stereo.`,
      { file },
    );
  }
  if (frames / sampleRate > MAX_DURATION) {
    throw new BarwiseError(
      'too-long',
      `${file} lasts ${seconds(frames / sampleRate)}, and at most three hours are read: cut it into shorter files.`,
      { file },
    );
  }
}
