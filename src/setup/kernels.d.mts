/** Where the compiled loops are kept. */
export const KERNELS: URL;
/** The bytes that the sources of the loops compile to. */
export function compileKernels(): Promise<Uint8Array>;
