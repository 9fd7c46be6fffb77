import type load from '@echogarden/pffft-wasm/simd';

/** A real Fourier transform of one size, in single precision. */
export interface RealFft {
  readonly size: number;
  /** Where the samples go; valid until the next transform is made. */
  input(): Float32Array;
  /** Transforms the input: real and imaginary parts in turn from bin 1 on; the first two are bins 0 and size/2, both real. */
  transform(): Float32Array;
}

type Pffft = Awaited<ReturnType<typeof load>>;

let loaded: Pffft | null = null;
let loading: Promise<Pffft> | null = null;
const plans = new Map<number, RealFft>();

/** Loads the transforms, once: whoever only reads what was found before need not wait for them. */
export async function loadFft(): Promise<void> {
  loading ??= import('@echogarden/pffft-wasm/simd').then((module) => module.default());
  loaded = await loading;
}

/**
 * The transform of a size, 32 or more and a power of two: PFFFT, compiled to WebAssembly with SIMD. One plan and its memory
 * serve every caller, because a transform is done before the next one begins.
 *
 * @throws Error before `loadFft` is done
 */
export function realFft(size: number): RealFft {
  const plan = plans.get(size) ?? makePlan(size);
  plans.set(size, plan);
  return plan;
}

function makePlan(size: number): RealFft {
  if (!loaded) throw new Error('The transforms are not loaded yet: wait for loadFft().');
  const pffft = loaded;
  const setup = pffft._pffft_new_setup(size, 0);
  if (setup === 0) throw new RangeError(`There is no transform of ${size} samples: give a power of two from 32 on.`);
  const [from, to, work] = [0, 1, 2].map(() => pffft._pffft_aligned_malloc(size * Float32Array.BYTES_PER_ELEMENT));
  let heap = pffft.HEAPF32;
  let [input, output] = views();

  function views(): [Float32Array, Float32Array] {
    const view = (at: number) => heap.subarray(at / 4, at / 4 + size);
    return [view(from), view(to)];
  }

  return {
    size,
    input() {
      // A later plan may have made the memory grow: then the old views are empty.
      if (pffft.HEAPF32 !== heap) {
        heap = pffft.HEAPF32;
        [input, output] = views();
      }
      return input;
    },
    transform() {
      pffft._pffft_transform_ordered(setup, from, to, work, 0);
      return output;
    },
  };
}
