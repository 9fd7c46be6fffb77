import { basename } from 'node:path';
import { barRange, clock, type TrackAnalysis } from '../../src/index.js';
import { isDoubtful } from '../../src/ladder/index.js';
import { doubtWord, wordsOf } from '../../src/wording/index.js';
import type { Block } from '../layout/blocks.js';
import { printable } from '../layout/fonts.js';
import { artistOf, loudnessWords, otherReadings, titleOf } from './facts.js';

/** What a card says in running text, after its ladder. Nothing here is ever cut off: it takes the pages it needs. */
export function cardBlocks(
  analysis: TrackAnalysis,
  extra: { readonly cut: readonly string[]; readonly remarks: readonly string[] },
): readonly Block[] {
  const blocks: Block[] = [];
  const add = (heading: string, texts: readonly string[]) => {
    if (texts.length === 0) return;
    blocks.push({ kind: 'heading', text: heading });
    for (const text of texts) blocks.push({ kind: 'paragraph', text: printable(text) });
  };
  if (analysis.bars.length === 0) add('No ladder', ['No bars were found, so there is nothing to count by.']);
  add('Title in full', extra.cut);
  const breaks = [...analysis.irregularities.map(irregularityWords), ...untoldPhrases(analysis)];
  const none = analysis.phrases.length > 0 ? ['Nowhere that was found.'] : [];
  add('Where it leaves its pattern', breaks.length > 0 ? breaks : none);
  const table = sectionTable(analysis);
  if (table !== null) blocks.push({ kind: 'heading', text: 'Sections' }, table);
  add('Other readings', otherReadings(analysis));
  add('Sound', [`Loudness: ${loudnessWords(analysis)}.`]);
  add('File', [fileWords(analysis), ...analysis.source.warnings.map((w) => w.message), ...extra.remarks]);
  return blocks;
}

function irregularityWords({ explanation, confidence }: TrackAnalysis['irregularities'][number]): string {
  const doubt = doubtWord(confidence);
  return doubt === doubtWord(1) ? explanation : `${explanation} (${doubt})`;
}

/** Phrases out of the pattern that no irregularity speaks of: the ladder marks them, so the words must, too. */
function untoldPhrases({ irregularities, phrases, phraseBars }: TrackAnalysis): readonly string[] {
  const told = new Set(irregularities.filter((i) => 'usualBars' in i.parameters).map((i) => i.parameters.endBar));
  return phrases
    .filter((p) => !p.regular && !told.has(p.endBar))
    .map(
      (p) =>
        `The phrase of bars ${barRange(p.startBar, p.endBar)} has ${p.bars}; this track's usually have ${phraseBars}.`,
    );
}

function sectionTable(analysis: TrackAnalysis): Block | null {
  if (analysis.sections.length === 0) return null;
  const duration = analysis.source.durationSeconds;
  const rows = analysis.sections.map((s) => [
    wordsOf().functions[s.function] + (isDoubtful(s.confidence) ? '?' : ''),
    barRange(s.startBar, s.endBar),
    `${s.endBar - Math.max(s.startBar, 1) + 1}`,
    clock(s.start),
    clock(Math.max(0, duration - s.start), 0),
  ]);
  const column = (name: string, share: number, anchor: 'start' | 'end' = 'end') => ({ name, share, anchor });
  const columns = [
    column('section', 0.3, 'start'),
    column('bars', 0.22),
    column('length', 0.15),
    column('starts', 0.17),
    column('left', 0.16),
  ];
  return { kind: 'table', columns, rows };
}

function fileWords({ source }: TrackAnalysis): string {
  const channels = source.channels === 1 ? 'mono' : source.channels === 2 ? 'stereo' : `${source.channels} channels`;
  return `${basename(source.file)}: ${source.codec}, ${source.sampleRate / 1000} kHz, ${channels}.`;
}

/** Name of a card among others: for bookmarks and the document's title. */
export function cardName(analysis: TrackAnalysis): string {
  const artist = artistOf(analysis);
  return artist === '' ? titleOf(analysis) : `${artist}: ${titleOf(analysis)}`;
}
