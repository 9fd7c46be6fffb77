/** Where the compiled sample loops are kept. */
export const KERNELS: URL;
/** The bytes that the source of the sample loops compiles to. */
export function compileKernels(): Promise<Uint8Array>;
