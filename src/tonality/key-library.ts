import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { compileFunction } from 'node:vm';
import type { HeardKey, KeyProfile } from './essentia.js';

/** What essentia.js gives, as far as a key needs it; numbers that C++ throws come through as they are. */
interface Library {
  readonly EssentiaJS: new (debug: boolean) => { readonly Key: (...parameters: readonly unknown[]) => HeardKey };
  arrayToVector(this: void, values: Float32Array): { delete(): void };
}

/** A library that is being made: what it finds here it takes, and what it gives it leaves here. */
type Making = Partial<Library> & { instantiateWasm: (imports: WebAssembly.Imports, done: Done) => WebAssembly.Exports };
type Done = (instance: WebAssembly.Instance) => void;
type Run = (...given: readonly unknown[]) => void;

/** Parameters of Key that KeyExtractor gives it: four harmonics falling by 0.6 each, notes as they were counted. */
const HARMONICS = 4;
const CLASSES = 12;
const SLOPE = 0.6;
const PLAIN = [false, false, false];

/** The part of essentia.js that names keys, in this thread. */
export interface KeyLibrary {
  /** @param classes power of the twelve pitch classes, A first */
  key(classes: Float32Array, profile: KeyProfile): HeardKey;
}

/**
 * Starts the build of essentia.js that is made for browsers, with its program beside it: it takes nothing of the process for its own, so that
 * it needs no thread, and nothing has to be read out of a text of 2.5 million letters.
 * @throws Error when it does not start
 */
export function startKeyLibrary(): KeyLibrary {
  const library = makeLibrary();
  const algorithms = new library.EssentiaJS(false);
  return {
    key(classes, profile) {
      const vector = library.arrayToVector(classes);
      try {
        const { key, scale, strength } = algorithms.Key(vector, HARMONICS, CLASSES, profile, SLOPE, ...PLAIN);
        return { key, scale, strength };
      } finally {
        vector.delete();
      }
    },
  };
}

function makeLibrary(): Library {
  const { resolve } = createRequire(import.meta.url);
  const file = resolve('essentia.js/dist/essentia-wasm.web.js');
  const program = new WebAssembly.Module(readFileSync(resolve('essentia.js/dist/essentia-wasm.web.wasm')));
  // It asks for a page only to find its program, which it is given.
  const given = { document: { currentScript: null }, window: {}, module: { exports: null as unknown } };
  const text = readFileSync(file, 'latin1');
  const run = compileFunction(text, [...Object.keys(given), 'exports'], { filename: file }) as Run;
  run(...Object.values(given), {});
  const making: Making = {
    instantiateWasm(imports, done) {
      const instance = new WebAssembly.Instance(program, imports);
      done(instance);
      return instance.exports;
    },
  };
  // What it promises is there when it returns.
  const make = given.module.exports as (making: Making) => Promise<unknown>;
  make(making).catch(() => undefined);
  if (!making.EssentiaJS) throw new Error('essentia.js has not started.');
  return making as Library;
}
