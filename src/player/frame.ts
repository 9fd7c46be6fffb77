import { createHash } from 'node:crypto';
import { escapeHtml, escapeJson } from './escape.js';
import type { PageAssets } from './assets.js';

/** By which a program can tell that a page is one of ours and may be written again. */
export const PAGE_MARK = '<meta name="generator" content="Barwise">';

/** What a page is made of beside its script and its style sheet. */
export interface PageParts {
  readonly title: string;
  /** Markup of our own; nothing in it comes from a file. */
  readonly body: string;
  /** What the script finds in the page. */
  readonly data: unknown;
  /** Where its sound may come from, as sources of the policy `media-src`; default nowhere. */
  readonly media?: string;
}

/** A page in one file that works offline: only our own script and style sheet run in it, and nothing else is loaded or sent. */
export function pageFrame({ title, body, data, media }: PageParts, { script, style }: PageAssets): string {
  const code = script.replaceAll('</', '<\\/');
  const policy = [
    `default-src 'none'`,
    `script-src '${digest(code)}'`,
    `style-src '${digest(style)}'`,
    ...(media === undefined ? [] : [`media-src ${media}`]),
    `font-src data:`,
    `base-uri 'none'`,
    `form-action 'none'`,
  ].join('; ');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light dark">
${PAGE_MARK}
<title>${escapeHtml(title)} · Barwise</title>
<style>${style}</style>
</head>
<body>
${body}
<script type="application/json" id="barwise-data">${escapeJson(data)}</script>
<script>${code}</script>
</body>
</html>
`;
}

function digest(text: string): string {
  return `sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}`;
}
