import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { encodeWav } from '../../src/audio/index.js';
import { beatScore, trimBeats } from '../../src/evaluation/index.js';
import { referenceEstimates } from '../corpus/references.js';

const aubio = spawnSync('aubiotrack', ['--help']).error === undefined;
const note = aubio ? '' : ' (skipped: install the Debian package aubio-tools)';
const RATE = 44_100;

describe.skipIf(!aubio)(`the references that run beside ours on the development songs${note}`, () => {
  it('are heard out: what is held against ours is what they say', async () => {
    const beats = Array.from({ length: 60 }, (_, i) => 0.3 + i * 0.5);
    const mono = new Float32Array(31 * RATE);
    for (const beat of beats)
      for (let i = 0; i < 0.03 * RATE; i++)
        mono[Math.round(beat * RATE) + i] = 0.8 * Math.sin(i * i * 12.9898) * Math.exp(-i / (0.006 * RATE)); // prettier-ignore
    const folder = mkdtempSync(join(tmpdir(), 'barwise-references-'));
    try {
      const file = join(folder, 'clicks.wav');
      writeFileSync(file, encodeWav([mono, mono], RATE));
      const said = await referenceEstimates(file, mono);
      expect(Object.keys(said).sort()).toEqual(['aubio', 'essentia']);
      expect(beatScore(trimBeats(beats), trimBeats(said.essentia.beats!)).f).toBeGreaterThan(0.9);
      // aubio loses plain clicks now and then, so of it no more is asked than that its answer is read.
      const found = said.aubio.beats!;
      expect(found.length).toBeGreaterThan(5);
      expect(found.every((t, i) => t < 31 && (i === 0 || t > found[i - 1]))).toBe(true);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
