import { describe, expect, it } from 'vitest';
import { crateTable } from '../../src/cli/crate-table.js';
import type { Io } from '../../src/cli/io.js';
import { audioUrl } from '../../src/cli/page-file.js';
import { wrapped } from '../../src/cli/paragraphs.js';
import { doubts, phrasePattern, trackRow } from '../../src/cli/rows.js';
import { fit, tabSeparated, textTable } from '../../src/cli/table.js';
import { sampleAnalysis } from '../support/sample-analysis.js';

describe('textTable', () => {
  const columns = [
    { head: 'Track', least: 6 },
    { head: 'BPM', align: 'right' as const },
  ];

  it('cuts the column that may be cut, and marks the cut', () => {
    const text = textTable(columns, [['Slack Water at Noon', '124.00']], { width: 20 });
    expect(text).toBe('Track            BPM\nSlack Water…  124.00\n');
  });

  it('leaves out what is optional before it runs past the edge, and calls a column that is cut by its short head', () => {
    const four = [
      { head: 'Track', least: 6 },
      { head: 'LUFS', optional: true },
      { head: 'Phrases (bars)', short: 'Phrases', least: 8 },
      { head: 'Key' },
    ];
    const row = ['Slack Water', '-9.0', '16 8 4', 'A minor'];
    const table = (width: number) => textTable(four, [row], { width });
    expect(table(44)).toBe('Track        LUFS  Phrases (bars)  Key\nSlack Water  -9.0  16 8 4          A minor\n');
    expect(table(36)).toBe('Track        LUFS  Phrases  Key\nSlack Water  -9.0  16 8 4   A minor\n');
    expect(table(28)).toMatch(/^Track +Phrases +Key\nSlack [^ ]*… {2}16 8 4 +A minor\n$/);
    for (let width = 25; width < 60; width++)
      for (const line of table(width).split('\n')) expect(line.length).toBeLessThanOrEqual(width);
  });

  it('fits a crate into a terminal of 80 columns, whatever key, phrases and doubts it has', () => {
    const row = {
      ...trackRow(sampleAnalysis()),
      lufs: '-20.3',
      sections: 'intro 16, build-up 8, drop 32, breakdown 16, drop 32, outro 16',
      key: 'F# minor',
      doubt: '50 or 200?, bar one?, key?',
    };
    const io = { stdout: { isTTY: true, columns: 80, write: () => true }, env: { NO_COLOR: '1' } };
    for (const line of crateTable([row], io as unknown as Io).split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('counts the cells of a terminal, not characters', () => {
    const lines = textTable(
      columns,
      [
        ['潮の音と港の灯り', '99.00'],
        ['plain', '100.00'],
      ],
      { width: 18 },
    ).split('\n');
    expect(lines[1]).toBe('潮の音と…    99.00');
    expect(lines[2]).toBe('plain       100.00');
  });

  it('lets no tag steer the terminal or break a row', () => {
    const hostile = 'a\u001b[2Jb\nc\td\u202ee';
    expect(textTable(columns, [[hostile, '1']], { width: 80 }).split('\n')[1]).toBe('a [2Jb c d e    1');
    expect(tabSeparated(['x', 'y'], [[hostile, '1']])).toBe('x\ty\na [2Jb c d e\t1\n');
  });
});

describe('fit', () => {
  it('fills and cuts to exactly the width', () => {
    expect([fit('ab', 4), fit('ab', 4, 'right'), fit('abcdef', 4)]).toEqual(['ab  ', '  ab', 'abc…']);
  });
});

describe('trackRow', () => {
  it('says what a person wants to know', () => {
    expect(trackRow(sampleAnalysis())).toEqual({
      file: 'slack-water.flac',
      title: 'Slack Water',
      artist: 'The Ferry House Workshop',
      bpm: '124.00',
      key: 'A minor',
      length: '3:23',
      phrases: '2×16 8 18 2×16 14',
      irregularities: '1',
      doubt: '',
    });
    expect(trackRow(sampleAnalysis(undefined, { title: null })).title).toBe('slack-water.flac');
  });

  it('names every doubt', () => {
    const { tempo, key, downbeat } = sampleAnalysis();
    const overrides = {
      tempo: {
        ...tempo,
        bpm: 174,
        alternatives: [
          { bpm: 174, weight: 0.55 },
          { bpm: 87, weight: 0.45 },
        ],
      },
      key: { ...key, confidence: null },
      downbeat: { ...downbeat, confidence: 0.4 },
    };
    expect(doubts(sampleAnalysis(undefined, { overrides }))).toEqual(['87 or 174?', 'bar one?', 'key?']);
  });

  it('takes runs of phrases together', () => {
    const phrases = [4, 8, 8, 8, 4].map((bars) => ({ ...sampleAnalysis().phrases[0], bars }));
    expect(phrasePattern({ ...sampleAnalysis(), phrases })).toBe('4 3×8 4');
  });
});

describe('audioUrl', () => {
  it('leads from the page to the sound, whatever the name', () => {
    expect(audioUrl('demo/index.html', 'demo/crate/01 a#b?.wav')).toBe('crate/01%20a%23b%3F.wav');
    expect(audioUrl('page.html', '../music/100%.mp3')).toBe('../music/100%25.mp3');
  });
});

describe('wrapped', () => {
  it('never parts a number from its unit', () => {
    const text = 'the start is 70 % sure and 12 dB louder than before, 9 s later';
    for (let width = 20; width < 60; width++) {
      const lines = wrapped(text, width).split('\n');
      expect(lines.join(' ').trim()).toBe(text);
      expect(lines.filter((line) => /^(%|dB|s)\b|^%/.test(line))).toEqual([]);
    }
  });
});
