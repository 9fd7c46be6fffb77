import { renderPage } from '../player/index.js';
import type { TrackAnalysis } from '../track/index.js';
import { clock, type BarNumber, type RunOptions, type Seconds } from '../units/index.js';
import { excerptMp3 } from './excerpt.js';
import { escapeHtml } from './markup.js';
import type { Display } from './ready.js';
import { trackName } from './summary.js';

/** What a player in a cell plays. @experimental */
export interface PlayerOptions extends RunOptions {
  /** First bar and number of bars of the excerpt; by default whole phrases from the first one, about a minute. */
  readonly fromBar?: BarNumber;
  readonly bars?: number;
  /** The whole track and no excerpt: about 1 MB a minute. */
  readonly whole?: boolean;
}

/** By this the runner and tests find a player among the outputs. */
export const PLAYER_MARK = 'data-barwise="player"';

/** How long an excerpt is that nobody has set: phrases are added until there is this much. */
const USUAL: Seconds = 60;

/** Seconds before the first bar of an excerpt, so that it does not begin with a cut beat. */
const LEAD_IN: Seconds = 0.15;

/**
 * A player that counts along, loops, slows down and lets one tap along, with the sound inside: it goes on working
 * wherever the notebook or its page is taken.
 * @experimental
 * @throws BarwiseError as openAudio does, where the file has moved
 * @example await show(player(analysis, { fromBar: 33, bars: 32 }))
 */
export async function player(analysis: TrackAnalysis, options: PlayerOptions = {}): Promise<Display> {
  const { from, to } = stretchOf(analysis, options);
  const sound = await excerptMp3(analysis.source.file, from, to, options);
  const audio = `data:audio/mpeg;base64,${sound.toString('base64')}`;
  const page = renderPage([{ analysis, audio, excerpt: { from, to } }], { title: trackName(analysis) });
  const words = `Player: ${trackName(analysis)}, ${clock(from, 0)} to ${clock(to, 0)}`;
  // The page in the frame is a document of its own: scripts run in there and reach nothing outside.
  const html =
    `<iframe ${PLAYER_MARK} title="${escapeHtml(words)}" sandbox="allow-scripts" ` +
    `style="width:100%;height:46rem;max-height:92vh;border:1px solid #8a8a8a;box-sizing:border-box" srcdoc="${escapeHtml(page)}"></iframe>`;
  return { bundle: { 'text/html': html, 'text/plain': words } };
}

function stretchOf(analysis: TrackAnalysis, options: PlayerOptions): { from: Seconds; to: Seconds } {
  const { bars, phrases, source } = analysis;
  const end = source.durationSeconds;
  if (options.whole || bars.length === 0) return { from: 0, to: end };
  const startOf = (number: BarNumber) => bars.find((bar) => bar.number >= number)?.start ?? end;
  const first = options.fromBar ?? phrases[0]?.startBar ?? bars[0].number;
  const from = Math.max(0, startOf(first) - LEAD_IN);
  if (options.bars !== undefined) return { from, to: Math.max(startOf(first + options.bars), from + 1) };
  const last = phrases.find((phrase) => phrase.end >= from + USUAL);
  return { from, to: Math.min(last?.end ?? end, end) };
}
