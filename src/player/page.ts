import { createHash } from 'node:crypto';
import type { TrackAnalysis } from '../track/index.js';
import type { Seconds } from '../units/index.js';
import { pageAssets } from './assets.js';
import type { PageData } from './data.js';
import { escapeHtml, escapeJson } from './escape.js';
import { PAGE_BODY } from './skeleton.js';

/** A track of the page. */
export interface PageTrack {
  readonly analysis: TrackAnalysis;
  /** Where the sound is, as a URL relative to the page, or the sound itself as a data URL. */
  readonly audio: string;
  /** The stretch of the track that the sound holds, where that is not all of it. Seconds of the track. */
  readonly excerpt?: { readonly from: Seconds; readonly to: Seconds };
  /** The same track analysed under the other tempos of its doubt; each is offered as a correction. */
  readonly alternatives?: readonly TrackAnalysis[];
}

export interface PageOptions {
  /** Name of the crate, shown on top and in the title bar. */
  readonly title?: string;
}

/** By which a program can tell that a page is one of ours and may be written again. */
export const PAGE_MARK = '<meta name="generator" content="Barwise">';

/**
 * One HTML page that holds everything but the sound: the crate, the ladder of every track, and a player that counts
 * along. It works from a file, offline, and asks for nothing but the audio files it names.
 */
export function renderPage(tracks: readonly PageTrack[], options: PageOptions = {}): string {
  const title = options.title ?? 'Crate';
  const data: PageData = {
    title,
    tracks: tracks.map((t) => ({
      audio: t.audio,
      ...(t.excerpt ? { excerpt: t.excerpt } : {}),
      readings: [t.analysis, ...(t.alternatives ?? [])],
    })),
  };
  const { script, style } = pageAssets();
  const code = script.replaceAll('</', '<\\/');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy(code, style)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light dark">
${PAGE_MARK}
<title>${escapeHtml(title)} · Barwise</title>
<style>${style}</style>
</head>
<body>
${PAGE_BODY}
<script type="application/json" id="barwise-data">${escapeJson(data)}</script>
<script>${code}</script>
</body>
</html>
`;
}

/** Only our own script and style sheet run, sound comes from beside the page, and nothing else is loaded or sent. */
function policy(script: string, style: string): string {
  return [
    `default-src 'none'`,
    `script-src '${digest(script)}'`,
    `style-src '${digest(style)}'`,
    `media-src 'self' file: data: blob:`,
    `font-src data:`,
    `base-uri 'none'`,
    `form-action 'none'`,
  ].join('; ');
}

function digest(text: string): string {
  return `sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}`;
}
