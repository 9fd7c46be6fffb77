/** The part of PFFFT's WebAssembly module (https://bitbucket.org/jpommier/pffft) that is used; pointers are byte offsets. */
declare module '@echogarden/pffft-wasm/simd' {
  interface Pffft {
    readonly HEAPF32: Float32Array;
    _pffft_aligned_malloc(bytes: number): number;
    /** @param kind 0: real input */
    _pffft_new_setup(size: number, kind: 0 | 1): number;
    /** @param direction 0: forward. Bins come in order; the first pair holds bin 0 and bin size/2, both real. */
    _pffft_transform_ordered(setup: number, input: number, output: number, work: number, direction: 0 | 1): void;
  }
  export default function load(): Promise<Pffft>;
}
