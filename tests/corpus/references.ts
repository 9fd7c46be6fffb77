import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { estimateOfBeats, type Estimate } from '../../src/evaluation/index.js';
import { referenceBeats } from '../../src/tonality/index.js';

const run = promisify(execFile);

/**
 * Beats of general-purpose libraries beside ours: essentia.js' RhythmExtractor2013 (multifeature) and aubio's aubiotrack
 * (Debian package aubio-tools), both with their own settings. aubio is left out where it is not installed.
 *
 * @param wav the file, for aubio; @param mono its samples at 44.1 kHz, for essentia.js
 */
export async function referenceEstimates(wav: string, mono: Float32Array): Promise<Record<string, Estimate>> {
  const essentia = estimateOfBeats(await referenceBeats(mono, 'multifeature'));
  const aubio = await aubioBeats(wav);
  return { essentia, ...(aubio ? { aubio: estimateOfBeats(aubio) } : {}) };
}

async function aubioBeats(wav: string): Promise<number[] | null> {
  try {
    const { stdout } = await run('aubiotrack', ['-i', wav], { maxBuffer: 1 << 24 });
    return stdout.split('\n').map(Number).filter((t) => t > 0); // prettier-ignore
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
}
