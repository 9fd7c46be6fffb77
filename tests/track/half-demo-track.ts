import { mkdtemp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { demoCrate, renderArrangement, type ArrangementTruth } from '../../src/arranger/index.js';
import { writeWav } from '../../src/audio/index.js';

/** Half a demo track with a build-up that is two bars too long, as a WAV in a fresh folder, and its exact truth. */
export async function halfDemoTrack(): Promise<{ folder: string; file: string; truth: ArrangementTruth }> {
  const folder = await mkdtemp(join(tmpdir(), 'barwise-half-track-'));
  const { arrangement } = demoCrate().find(({ name }) => name.endsWith('rope-locker-lights'))!;
  const { left, right, sampleRate, truth } = renderArrangement({
    ...arrangement,
    parts: arrangement.parts.slice(0, 5),
  });
  const file = join(folder, 'track.wav');
  await writeWav(file, [left, right], sampleRate);
  return { folder, file, truth };
}
