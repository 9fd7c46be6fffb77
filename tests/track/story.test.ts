import { describe, expect, it } from 'vitest';
import { countRows, tellTrack, type AnalysisIrregularity, type TrackAnalysis } from '../../src/track/index.js';
import { CHANGES, LAYERS, SECTION_FUNCTIONS } from '../../src/units/index.js';
import { LANGUAGES, type Language } from '../../src/wording/index.js';
import { sampleAnalysis, type SamplePart } from '../support/sample-analysis.js';
import { notInCountTable, sentencesOf } from './looked-up.js';

/** A number that stands without anything to say what it counts. */
const UNIT =
  /^\s?(%|dB|BPM|ms|times|-mal|bars?|beats?|Takte?n?|Schläge?n?|×|\+|–|;|\)|:|,|\.|$|of|von|and|und|or|oder|in |starts|beginnt|to the|im Takt|fit|\?)/;

/** A generator of numbers from 0 to 1 that is the same every time (Lehmer; Park & Miller 1988). */
function lehmer(seed: number): () => number {
  let state = (seed * 48_271 + 1) % 2_147_483_647;
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
}

/** An analysis drawn at random, with every kind of irregularity somewhere. */
function randomAnalysis(seed: number): TrackAnalysis {
  const random = lehmer(seed);
  const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)];
  const parts = Array.from({ length: 3 + Math.floor(random() * 6) }, (): SamplePart => ({
    function: pick(SECTION_FUNCTIONS),
    phrases: Array.from({ length: 1 + Math.floor(random() * 3) }, () => pick([4, 8, 16, 16, 7, 18, 13])),
    layers: LAYERS.filter(() => random() < 0.5),
  }));
  const bpm = 70 + random() * 110;
  const plain = sampleAnalysis(parts, {
    bpm,
    firstOne: random() * 3,
    beatsPerBar: pick([4, 4, 3]),
    irregularities: [],
  });
  const bar = (n: number) => plain.bars[Math.min(n, plain.bars.length) - 1];
  const any = () => bar(1 + Math.floor(random() * plain.bars.length));
  const beatOf = (n: number, beat: number) => plain.beats[(n - 1) * plain.metre.beatsPerBar + beat - 1];
  const common = (b: { number: number; start: number }) => ({
    bar: b.number,
    time: b.start,
    confidence: random(),
    explanation: '',
  });
  const phrase = plain.phrases[Math.max(plain.phrases.length - 2, 0)];
  const next = bar(phrase.endBar + 1);
  const length = {
    startBar: phrase.startBar,
    endBar: phrase.endBar,
    bars: phrase.bars,
    nextStart: next.start,
    function: 'main',
  };
  const alternative = {
    alternativeBar: bar(phrase.startBar + 3).number,
    alternativeStart: bar(phrase.startBar + 3).start,
    alternativeShare: 0.2,
  };
  const from = any();
  const to = bar(Math.min(from.number + 12, plain.bars.length - 1));
  const span = from.number < to.number ? { from, to } : { from: to, to };
  const lead = bar(Math.max(any().number, 2));
  const beats = 1 + Math.floor(random() * (plain.metre.beatsPerBar - 1));
  const startTime = beatOf(lead.number - 1, plain.metre.beatsPerBar - beats + 1);
  const irregularities: AnalysisIrregularity[] = [
    {
      ...common(bar(phrase.startBar + phrase.bars - 2)),
      kind: 'added-bars',
      parameters: { ...length, usualBars: phrase.bars - 2, ...alternative },
      evidence: { levelDecibels: -7, onsetRatio: 1.1, startShare: 0.9, endShare: 0.8 },
    },
    {
      ...common(next),
      kind: 'dropped-bars',
      parameters: { ...length, usualBars: phrase.bars + 2 },
      evidence: { startShare: 0.9 },
    },
    { ...common(bar(phrase.startBar)), kind: 'odd-phrase', parameters: { ...length, usualBars: 16 }, evidence: {} },
    {
      ...common(lead),
      kind: 'pick-up',
      parameters: { startTime, beats },
      evidence: { pickUpShare: 0.7, phraseStartShare: 0.9 },
    },
    { ...common(any()), kind: 'added-beats', parameters: { beats: 1 }, evidence: { gainNats: 4.5, barBeats: 5 } },
    { ...common(any()), kind: 'dropped-beats', parameters: { beats: 2 }, evidence: { gainNats: 40, barBeats: 2 } },
    {
      ...common(any()),
      kind: 'tempo-change',
      parameters: { fromBpm: 120, toBpm: 126.04 },
      evidence: { beatsBefore: 99, beatsAfter: 200 },
    },
    {
      ...common(bar(1)),
      kind: 'drift',
      parameters: { lowestBpm: 117.2, highestBpm: 121.8 },
      evidence: { spreadMilliseconds: 9.1, windowBeats: 16 },
    },
    {
      ...common(span.from),
      kind: 'half-time',
      parameters: { endBar: span.to.number, countedBpm: bpm, feltBpm: bpm / 2 },
      evidence: { thirdBeatOverSecondAndFourth: 2.4, bars: 12 },
    },
    {
      ...common(span.from),
      kind: 'beatless-passage',
      parameters: { endBar: span.to.number },
      evidence: { drumShare: 0.04, bars: 12 },
    },
  ];
  const events = plain.events.map((e) => {
    if (random() < 0.6) return e;
    const beat = 1 + Math.floor(random() * plain.metre.beatsPerBar);
    return { ...e, beat, time: beatOf(e.bar, beat), change: pick(CHANGES) };
  });
  return { ...plain, irregularities: irregularities.sort((a, b) => a.time - b.time), events };
}

describe.each(Object.keys(LANGUAGES) as Language[])('a track told in language %s', (language) => {
  it('names no bar and no time that its count table does not have, on 300 tracks drawn at random', () => {
    for (let seed = 1; seed <= 300; seed++) {
      const analysis = randomAnalysis(seed);
      expect(notInCountTable(sentencesOf(analysis, language), analysis, language), `seed ${seed}`).toEqual([]);
    }
  });

  it('is seen to name a bar that is not there', () => {
    const analysis = randomAnalysis(1);
    const { story } = LANGUAGES[language];
    expect(notInCountTable([story.place(9999, 1)], analysis, language)).toContain('9999');
    expect(notInCountTable([story.place(1, 5999.9)], analysis, language)).toHaveLength(1);
  });

  it('says of every irregularity what, how sure and on what evidence, with a unit on every number', () => {
    const { breaks } = tellTrack(randomAnalysis(7), language);
    expect(breaks).toHaveLength(10);
    for (const { sentence, doubt, evidence } of breaks) {
      expect(sentence).toMatch(/^[A-ZÄÖÜ].*\.$/);
      expect(doubt).toMatch(/\d+ %$/);
      // The name of a beat is no number of anything.
      const counted = (evidence ?? '').replace(/\b(beats?|Schlag) \d( (and|und) \d)?/g, '');
      for (const match of counted.matchAll(/[−+]?\d[\d.,]*/g)) {
        const rest = counted.slice(match.index + match[0].length);
        expect(rest, `${match[0]} in "${counted}"`).toMatch(UNIT);
      }
    }
    expect(breaks.filter((b) => b.evidence === null)).toHaveLength(1);
    expect(breaks.filter((b) => b.alternative !== null)).toHaveLength(1);
  });

  it('counts every bar once, with its place in group and phrase', () => {
    const analysis = randomAnalysis(3);
    const rows = countRows(analysis, language);
    expect(rows.map((r) => r.bar)).toEqual(analysis.bars.map((b) => b.number));
    rows.forEach((row, i) => {
      const bar = analysis.bars[i];
      expect(row).toMatchObject({ time: bar.start, phrase: bar.phrase, phraseBar: bar.phraseBar });
      expect(row.count).toBe(`${bar.groupBar} · 1`);
      expect(row.phraseBar).toBeLessThanOrEqual(row.phraseBars);
    });
  });
});

describe('what happens, in the count table', () => {
  const analysis = sampleAnalysis();
  const at = (bar: number) => countRows(analysis).find((r) => r.bar === bar)!;

  it('stands at its bar', () => {
    expect(at(1).happens).toEqual(['intro: drums in']);
    expect(at(17).happens).toEqual(['main part: bass in, harmony in']);
    expect(at(18).happens).toEqual([]);
    expect(at(41).happens[0]).toMatch(/^build-up/);
    expect(at(57).happens).toEqual(['2 bars over from here']);
    expect(at(59).happens[0]).toMatch(/^the drop lands/);
  });

  it('tells what somebody has said first', () => {
    const told = tellTrack({ ...analysis, corrections: [{ kind: 'first-one', time: 0.42 }] });
    expect(told.corrected).toEqual(['The first one is at 0:00.42.']);
  });
});

describe('a track whose odd phrases are not sure enough to be told', () => {
  const of = (phrases: readonly number[]) =>
    sampleAnalysis([{ function: 'main', phrases, layers: ['kick'] }], { irregularities: [] });

  it('is not said to fit: its odd phrases stand in doubt', () => {
    for (const language of Object.keys(LANGUAGES) as Language[]) {
      const { noBreaks, doubts } = tellTrack(of([16, 16, 13, 16, 16]), language);
      expect(noBreaks).toBe(LANGUAGES[language].story.noneSure);
      expect(doubts.join(' ')).toMatch(/33–45.*13.*16/);
    }
  });

  it('is said to fit where every phrase does', () => {
    const { noBreaks, doubts } = tellTrack(of([16, 16, 16]), 'en');
    expect(noBreaks).toBe(LANGUAGES.en.story.regular);
    expect(doubts.join(' ')).not.toMatch(/phrase/);
  });
});
