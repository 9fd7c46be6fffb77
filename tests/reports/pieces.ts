import { PassThrough } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import {
  printCards,
  printLesson,
  printTransitions,
  printWorksheets,
  type PieceTarget,
  type PrintWarning,
} from '../../reports/index.js';
import { matchTracks, type TrackAnalysis } from '../../src/index.js';
import { VARIANTS } from '../ladder/variants.js';

type Printer = (
  track: TrackAnalysis,
  target: PieceTarget,
) => Promise<{ readonly pages: number; readonly warnings?: readonly PrintWarning[] }>;

/** Every kind of printed piece, of one track; where it takes two, the other is a plain one or the same. */
export const PIECES: Readonly<Record<string, Printer>> = {
  'card of A6': (t, to) => printCards([t], to),
  'card of 3×5 in': (t, to) => printCards([t], to, { paper: '3x5in' }),
  'card of 4×6 in': (t, to) => printCards([t], to, { paper: '4x6in' }),
  'card of A5': (t, to) => printCards([t], to, { paper: 'A5' }),
  'card of a sleeve': (t, to) => printCards([t], to, { paper: '12in' }),
  'card in German': (t, to) => printCards([t], to, { paper: '3x5in', language: 'de', theme: { inkSaving: true } }),
  'sheet with an index': (t, to) => printCards([t], to, { sheet: 'A4', index: 'name' }),
  lesson: (t, to) => printLesson([t], to),
  'lesson on A3': (t, to) => printLesson([t], to, { paper: 'A3', format: 'pdf', language: 'de' }),
  slide: (t, to) => printLesson([t], to, { paper: '16:9', format: 'pdf' }),
  comparison: (t, to) => printLesson([t, VARIANTS.plain()], to),
  'worksheet of level 1': (t, to) => printWorksheets([t], to),
  'worksheet of level 2': (t, to) => printWorksheets([t], to, { level: 2, language: 'de' }),
  'worksheet of level 3': (t, to) => printWorksheets([t], to, { level: 3 }),
  'transition sheet': async (a, to) => {
    const match = matchTracks(a, VARIANTS.plain());
    return printTransitions([{ a, b: VARIANTS.plain(), match, plan: match.plans[0] }], to);
  },
};

/** The bytes of a piece of a track. */
export async function bytesOf(piece: string, track: TrackAnalysis): Promise<Buffer> {
  const stream = new PassThrough();
  const [, bytes] = await Promise.all([PIECES[piece](track, stream), buffer(stream)]);
  return bytes;
}
