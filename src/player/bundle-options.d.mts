import type { BuildOptions } from 'esbuild';

/** How the script of the page is bundled, by the build and when the program runs from its sources. */
export function bundleOptions(entry: string): BuildOptions;
