// The only place that loads essentia.js. It runs in a worker thread because loading it hooks `uncaughtException`, makes
// unhandled rejections abort and keeps a heap that only grows: all of that ends with the thread.
// Plain JavaScript, so that the same file serves the sources and the build.
import { createRequire } from 'node:module';
import { parentPort } from 'node:worker_threads';

const require = createRequire(import.meta.url);
// What the package gives as a whole brings models, extractors and plots: for a key its compiled part alone will do.
const EssentiaWASM = require('essentia.js/dist/essentia-wasm.umd.js');
const algorithms = new EssentiaWASM.EssentiaJS(false);
/** The algorithms with the default values of what is not told, for whoever asks for more than a key. */
let essentia = null;

function withDefaults() {
  const Essentia = require('essentia.js/dist/essentia.js-core.umd.js');
  return (essentia ??= new Essentia(EssentiaWASM));
}

/** Parameters of KeyExtractor before the lowest frequency and after it; those after the profile keep their defaults. */
const EXTRACTOR_PARAMETERS = [true, 4096, 4096, 12, 3500, 60];
const PCP_THRESHOLD = 0.2;
/** Parameters of Key that KeyExtractor gives it: four harmonics falling by 0.6 each, notes as they were counted. */
const HARMONICS = 4;
const SLOPE = 0.6;
const PLAIN = [false, false, false];

const tasks = {
  /** The nearest key for each of several pitch class profiles, one after the other, A first. */
  keys(vector, { profile, classes }) {
    const all = EssentiaWASM.vectorToArray(vector);
    return Array.from({ length: all.length / classes }, (_, i) => {
      const one = EssentiaWASM.arrayToVector(all.slice(i * classes, (i + 1) * classes));
      try {
        const { key, scale, strength } = algorithms.Key(one, HARMONICS, classes, profile, SLOPE, ...PLAIN);
        return { key, scale, strength };
      } finally {
        one.delete();
      }
    });
  },
  /** The key of some seconds of music at 44.1 kHz, by the given profile, from a lowest frequency in hertz up. */
  keyOfMusic(vector, { profile, lowest }) {
    const { key, scale, strength } = withDefaults().KeyExtractor(
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
    const result = withDefaults().RhythmExtractor2013(vector, 208, method, 40);
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
