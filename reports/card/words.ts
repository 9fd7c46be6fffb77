import { basename } from 'node:path';
import { barRange, type TrackAnalysis } from '../../src/index.js';
import { isDoubtful } from '../../src/ladder/index.js';
import type { Block, TableColumn } from '../layout/blocks.js';
import { printable } from '../layout/printable.js';
import type { Style } from '../theme/index.js';
import { loudnessWords, otherReadings } from './facts.js';
import { breakWords, landmarks } from './happenings.js';

/** What a card says in running text, after its ladder. Nothing here is ever cut off: it takes the pages it needs. */
export function cardBlocks(
  analysis: TrackAnalysis,
  style: Style,
  extra: { readonly cut: readonly string[]; readonly remarks: readonly string[] },
): readonly Block[] {
  const { print, words } = style;
  const { card } = words;
  const blocks: Block[] = [];
  const add = (heading: string, texts: readonly string[]) => {
    if (texts.length === 0) return;
    blocks.push({ kind: 'heading', text: heading });
    for (const text of texts) blocks.push({ kind: 'paragraph', text: printable(text) });
  };
  if (analysis.bars.length === 0) add(card.headings.noLadder, [card.nothingToCountBy]);
  add(card.headings.titleInFull, extra.cut);
  const ones = countTable(analysis, style);
  if (ones !== null) blocks.push({ kind: 'heading', text: print.back.ones }, ones);
  const breaks = breakWords(analysis, style);
  const none = analysis.phrases.length > 0 ? [card.nowhere] : [];
  add(card.headings.breaks, breaks.length > 0 ? breaks : none);
  add(print.back.landmarks, landmarkWords(analysis, style));
  add(card.headings.otherReadings, otherReadings(analysis, style));
  const warnings = analysis.source.warnings.map((w) => w.message);
  const loudness = card.loudness(loudnessWords(analysis, style));
  add(card.headings.file, [`${fileWords(analysis, style)} ${loudness}`, ...warnings, ...extra.remarks]);
  return blocks;
}

/** Most landmarks on a card. */
const LANDMARKS = 6;

/** The moments to recognise by ear, each with its time and bar. */
export function landmarkWords(analysis: TrackAnalysis, style: Style, most = LANDMARKS): readonly string[] {
  const { words } = style;
  return landmarks(analysis, style, most).map(
    (m) => `${words.clock(m.time)}, ${words.remarks.at(m.bar, m.beat, m.said)}`,
  );
}

/** The one of every phrase: its bar, the section that starts there, its length, elapsed and remaining time. */
function countTable(analysis: TrackAnalysis, { print, words }: Style): Block | null {
  if (analysis.phrases.length === 0) return null;
  const duration = analysis.source.durationSeconds;
  const { columns: names } = print.back;
  const rows = analysis.phrases.map((phrase, i) => {
    const section = analysis.sections.find((s) => s.startBar === phrase.startBar || (i === 0 && s.startBar < 1));
    const name = section && words.functions[section.function] + (isDoubtful(section.confidence) ? '?' : '');
    return [
      `${phrase.startBar}${isDoubtful(phrase.confidence) ? '?' : ''}`,
      section === undefined ? '' : print.back.sectionBars(name!, barRange(section.startBar, section.endBar)),
      `${phrase.bars}`,
      words.clock(phrase.start),
      words.clock(Math.max(0, duration - phrase.start), 0),
    ];
  });
  const column = (name: string, share: number, anchor: TableColumn['anchor'] = 'end') => ({ name, share, anchor });
  const columns = [
    column(names.one, 0.1),
    column(names.section, 0.42, 'start'),
    column(names.bars, 0.14),
    column(names.elapsed, 0.18),
    column(names.left, 0.16),
  ];
  return { kind: 'table', columns, rows };
}

function fileWords({ source }: TrackAnalysis, { words }: Style): string {
  const { card } = words;
  const channels =
    source.channels === 1 ? card.mono : source.channels === 2 ? card.stereo : card.channels(source.channels);
  const rate = words.number(source.sampleRate / 1000, 2);
  return `${basename(source.file)}: ${source.codec}, ${rate} kHz, ${channels}.`;
}
