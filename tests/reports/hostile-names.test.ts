import { describe, expect, test } from 'vitest';
import { SMALLEST_TYPE } from '../../reports/layout/type.js';
import type { TrackAnalysis } from '../../src/index.js';
import { VARIANTS } from '../ladder/variants.js';
import { bytesOf, PIECES } from './pieces.js';
import { readPdf } from './read-pdf.js';

const LONG = 'The Lock-Keeper’s Account of the Long Winter '.repeat(7).slice(0, 300);
/** Title and artist, and what must be left of the title on every piece. */
const NAMES: Readonly<Record<string, readonly [title: string, artist: string, left: string]>> = {
  '300 characters': [LONG, LONG, 'The Lock-Keeper’s'],
  'one word of 300 letters': ['W'.repeat(300), 'm'.repeat(300), 'WWWWWWWW'],
  emoji: ['🚢 Slack 👩‍👩‍👧 Water 🌊🌊', '🎧 crew', 'Water'],
  controls: ['Slack\u0000\u0007\u001bWater\u202e\u200b', 'a\tb', 'SlackWater'],
  HTML: ['<script>alert(1)</script> & <b>Bold</b>', '"A" & \'B\' <i>', '<script>alert(1)</script>'],
  newlines: ['Slack\nWater\r\n\r\nagain', 'Two\nLines', 'Slack Water again'],
  'from right to left': ['שיט על הנהר', 'الحارس', 'שיט'],
  'both directions': ['Slack Water (שיט)', 'Ferry', 'Slack Water (שיט)'],
  'a script without a font': ['ߊߋߌ', 'Ferry', 'track.flac'],
};

function named(title: string, artist: string): TrackAnalysis {
  const track = VARIANTS.plain();
  return { ...track, source: { ...track.source, file: 'track.flac', tags: { ...track.source.tags, title, artist } } };
}

/** Marks of the order of cutting stand outside the cards, at the edge of their sheet. */
const isCutNumber = (text: string) => /^\d+$/.test(text);
const compact = (text: string) => text.replace(/\s+/g, '');

describe.each(Object.keys(PIECES))('a %s', (piece) => {
  test.each(Object.entries(NAMES))('holds together with a title of %s', async (_kind, [title, artist, left]) => {
    const pdf = await readPdf(await bytesOf(piece, named(title, artist)));
    for (const { texts, width, height } of pdf.pages) {
      for (const { text, x, y, width: length, size } of texts) {
        if (isCutNumber(text)) continue;
        expect(x, text).toBeGreaterThan(5);
        expect(x + length, text).toBeLessThan(width - 5);
        expect(y, text).toBeLessThan(height - 5);
        expect(size, text).toBeGreaterThan(SMALLEST_TYPE - 0.01);
      }
    }
    expect(compact(pdf.text)).toContain(compact(left));
    // eslint-disable-next-line no-control-regex -- these are what must not be there
    for (const name of [...pdf.bookmarks, String(pdf.info.Title)]) expect(name).not.toMatch(/[\u0000-\u001f\u202e]/);
  });
});
