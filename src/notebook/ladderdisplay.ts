import { compactSvg } from '../charts/index.js';
import { describeLadder, ladderToSvg, layoutLadder, PAPER_THEME } from '../ladder/index.js';
import type { TrackAnalysis } from '../track/index.js';
import type { Display } from './ready.js';
import { trackName } from './summary.js';

/** As wide as the charts with their axis. */
const DEFAULT_WIDTH = 788;

/**
 * The ladder of a track: one rung a phrase, one cell a bar, a strip a layer.
 * @experimental
 * @param width in pixels
 */
export function ladder(analysis: TrackAnalysis, width = DEFAULT_WIDTH): Display {
  const geometry = layoutLadder(analysis, { width });
  const id = `ladder-${analysis.source.audioDigest.slice(0, 8)}-${Math.round(width)}`;
  const svg = ladderToSvg(geometry, PAPER_THEME, { title: trackName(analysis), id });
  // The transparent bars are there to be lit up by a player; a still picture does without.
  const still = compactSvg(svg.replace(/<rect class="bar"[^>]*\/>\n?/g, ''));
  return { bundle: { 'image/svg+xml': still, 'text/plain': describeLadder(geometry) } };
}
