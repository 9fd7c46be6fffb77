import { PassThrough } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import { printCards, type CardOptions, type PrintResult } from '../../reports/index.js';
import type { TrackAnalysis } from '../../src/track/index.js';

/** Prints cards into memory. */
export async function print(
  analyses: readonly TrackAnalysis[],
  options: CardOptions = {},
): Promise<PrintResult & { readonly bytes: Buffer }> {
  const stream = new PassThrough();
  const [result, bytes] = await Promise.all([printCards(analyses, stream, options), buffer(stream)]);
  return { ...result, bytes };
}
