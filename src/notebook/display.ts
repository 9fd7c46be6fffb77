import { createRequire } from 'node:module';
import { isChartSpec, toSvg, type ChartSpec } from '../charts/index.js';
import { BarwiseError } from '../units/index.js';
import type { MimeBundle } from './nbformat.js';
import type { Display } from './ready.js';
import { isAnalysis } from './guards.js';
import { trackSummary } from './summary.js';

/** MIME type of a chart for front ends that run vega; the others show the SVG beside it. @experimental */
export const VEGA_LITE_MIME = 'application/vnd.vegalite.v5+json';

/**
 * A chart as a bundle of vega-lite JSON, SVG and text.
 * @experimental
 * @throws BarwiseError `missing-package`
 */
export async function chart(spec: ChartSpec): Promise<Display> {
  const svg = await toSvg(spec);
  return { bundle: { [VEGA_LITE_MIME]: spec, 'image/svg+xml': svg, 'text/plain': spec.description } };
}

/**
 * How a value is shown as the result of a cell: charts are drawn, analyses summarised, displays given as they are.
 * `undefined` for everything else.
 * @experimental
 */
export async function bundleOf(value: unknown): Promise<MimeBundle | undefined> {
  if (isDisplay(value)) return value.bundle;
  if (isChartSpec(value)) return (await chart(value)).bundle;
  if (isAnalysis(value)) return trackSummary(value).bundle;
  return undefined;
}

/**
 * Shows a value under the running cell, at once and not only as its last expression.
 * @experimental
 * @throws BarwiseError `bad-option` for a value that has no picture, or outside a notebook
 */
export async function show(value: unknown): Promise<void> {
  const bundle = await bundleOf(await value);
  if (!bundle)
    throw new BarwiseError('bad-option', 'Only charts, analyses and what `barwise/notebook` makes can be shown.');
  const write = kernelWriter();
  if (!write) throw new BarwiseError('bad-option', 'There is no notebook to show this in: run it in a notebook cell.');
  write({ data: bundle, metadata: {}, transient: {} }, false);
}

type KernelWriter = (message: { data: MimeBundle; metadata: object; transient: object }, update: boolean) => void;

/** The kernel's own way to send a display, which takes several MIME types at once where its public one takes one. */
function kernelWriter(): KernelWriter | null {
  try {
    const kernel = createRequire(import.meta.url)('tslab/dist/jupyter.js') as {
      lastWriteDisplayData: KernelWriter | null;
    };
    return kernel.lastWriteDisplayData;
  } catch {
    return null;
  }
}

function isDisplay(value: unknown): value is Display {
  if (value === null || typeof value !== 'object' || !('bundle' in value)) return false;
  const { bundle } = value;
  return bundle !== null && typeof bundle === 'object' && 'text/plain' in bundle;
}
