// Loads all of essentia.js. It runs in a worker thread because loading this build hooks `uncaughtException`, makes
// unhandled rejections abort and keeps a heap that only grows: all of that ends with the thread.
// Plain JavaScript, so that the same file serves the sources and the build.
import { createRequire } from 'node:module';
import { parentPort } from 'node:worker_threads';

const require = createRequire(import.meta.url);
// What the package gives as a whole brings models, extractors and plots as well.
const EssentiaWASM = require('essentia.js/dist/essentia-wasm.umd.js');
const Essentia = require('essentia.js/dist/essentia.js-core.umd.js');
const essentia = new Essentia(EssentiaWASM);

/** Parameters of KeyExtractor before the lowest frequency and after it; those after the profile keep their defaults. */
const EXTRACTOR_PARAMETERS = [true, 4096, 4096, 12, 3500, 60];
const PCP_THRESHOLD = 0.2;

const tasks = {
  /** The key of some seconds of music at 44.1 kHz, by the given profile, from a lowest frequency in hertz up. */
  keyOfMusic(vector, { profile, lowest }) {
    const { key, scale, strength } = essentia.KeyExtractor(
      vector,
      ...EXTRACTOR_PARAMETERS,
      lowest,
      PCP_THRESHOLD,
      profile,
    );
    return { key, scale, strength };
  },
  /** Beat times of a whole track at 44.1 kHz. */
  beats(vector, { method }) {
    const result = essentia.RhythmExtractor2013(vector, 208, method, 40);
    try {
      return { ticks: Float32Array.from(EssentiaWASM.vectorToArray(result.ticks)), bpm: result.bpm };
    } finally {
      for (const part of [result.ticks, result.estimates, result.bpmIntervals]) part?.delete?.();
    }
  },
};

parentPort.on('message', ({ id, task, samples, options }) => {
  let vector;
  try {
    vector = EssentiaWASM.arrayToVector(samples);
    parentPort.postMessage({ id, value: tasks[task](vector, options) });
  } catch (error) {
    // Exceptions of the compiled code arrive as bare numbers.
    parentPort.postMessage({
      id,
      error: error instanceof Error ? error.message : `essentia.js gave up (${String(error)})`,
    });
  } finally {
    vector?.delete();
  }
});
