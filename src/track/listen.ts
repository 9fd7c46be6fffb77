import {
  clipped,
  createClippingCounter,
  createPolarity,
  invertedChannel,
  resampleTo,
  toStereo,
  type AudioSource,
  type AudioWarning,
} from '../audio/index.js';
import { createLoudnessMeter, type Loudness } from '../loudness/index.js';
import { addEnergies, ANALYSIS_RATE, createFrontEnd, loadFft, type FrontEnd } from '../signal/index.js';
import { createKeyFinder, type Key } from '../tonality/index.js';
import { throwIfAborted, type RunOptions } from '../units/index.js';

/** What one pass over the samples gives. */
export interface Heard {
  readonly frontEnd: FrontEnd;
  readonly loudness: Loudness;
  readonly key: Key;
  /** What the samples themselves gave reason to warn of. */
  readonly warnings: readonly AudioWarning[];
}

/** From this share of samples on, cut-off tops are worth a word. */
const MUCH_CLIPPING = 0.005;

/**
 * Reads a source once, block by block, and keeps only curves: the front end, the loudness, the key.
 * The source is closed at the end, also after an error.
 */
export async function listen(source: AudioSource, options: RunOptions = {}): Promise<Heard> {
  try {
    await loadFft();
    return await listenTo(source, options);
  } finally {
    await source.close();
  }
}

async function listenTo(source: AudioSource, { onProgress, signal }: RunOptions): Promise<Heard> {
  const frontEnd = createFrontEnd(source.frames ? source.frames / source.sampleRate : undefined);
  const meter = createLoudnessMeter(source.sampleRate, source.channels);
  const polarity = createPolarity(addEnergies);
  const clipping = createClippingCounter();
  let read = 0;
  const metered: AudioSource = {
    ...source,
    sampleRate: source.sampleRate,
    channels: Math.min(source.channels, 2),
    frames: source.frames,
    async *blocks() {
      for await (const block of source.blocks()) {
        throwIfAborted(signal);
        meter.push(block);
        clipping.push(block);
        read += block[0]?.length ?? 0;
        if (source.frames) onProgress?.({ stage: 'listening', done: Math.min(read / source.frames, 1) });
        yield toStereo(block);
      }
    },
    close: () => source.close(),
  };
  const resampled = resampleTo(metered, ANALYSIS_RATE);
  const keyFinder = createKeyFinder(resampled.frames ?? 0);
  for await (const block of resampled.blocks()) {
    const left = block[0];
    const right = polarity.right(left, block[1] ?? left);
    frontEnd.push(left, right);
    keyFinder.push(left, right);
  }
  const key = await keyFinder.finish();
  const warnings = [
    ...(clipping.share() > MUCH_CLIPPING ? [clipped(clipping.share())] : []),
    ...(polarity.inverted ? [invertedChannel()] : []),
  ];
  return { frontEnd: frontEnd.finish(), loudness: meter.finish(), key, warnings };
}
