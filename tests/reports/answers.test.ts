import { describe, expect, test } from 'vitest';
import { LEVELS, styleOf } from '../../reports/index.js';
import { questionsAbout } from '../../reports/worksheet/questions.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { clock, LAYERS, randomNumbers, type Layer, type SectionFunction } from '../../src/units/index.js';
import { withBeats } from '../ladder/variants.js';
import { sampleAnalysis, type SamplePart } from '../support/sample-analysis.js';

const TRACKS = 100;
const WHOLE: readonly SectionFunction[] = [
  'intro',
  'main',
  'breakdown',
  'build-up',
  'drop',
  'main',
  'breakdown',
  'drop',
  'outro',
];

/** A track of its own for each number: other sections, phrases too long or short, layers, tempos, odd bars, doubts. */
function arrangement(seed: number): TrackAnalysis {
  const next = randomNumbers(seed);
  const oneOf = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)];
  const phraseBars = oneOf([8, 16]);
  const length = () => (next() < 0.15 ? phraseBars + oneOf([-3, -2, -1, 1, 2, 4]) : phraseBars);
  const parts = WHOLE.filter(() => next() < 0.75).map((value): SamplePart => {
    const layers = LAYERS.filter(() => next() < 0.6);
    const phrases = Array.from({ length: 1 + Math.floor(next() * 3) }, length);
    return { function: value, phrases, layers: layers.length > 0 ? layers : ['kick'] };
  });
  const whole: readonly SamplePart[] =
    parts.length > 0 ? parts : [{ function: 'main', phrases: [8], layers: ['kick'] }];
  const bpm = 85 + Math.floor(next() * 900) / 10;
  let track = sampleAnalysis(whole, { title: `Arrangement ${seed}`, phraseBars, bpm, irregularities: [] });
  if (next() < 0.4) track = withBeats(track, 2 + Math.floor(next() * (track.bars.length - 2)), oneOf([2, 3, 5, 6]));
  const audioDigest = seed.toString(16).padStart(64, '0');
  const sections = track.sections.map((s) => (next() < 0.15 ? { ...s, confidence: 0.3 } : s));
  return { ...track, source: { ...track.source, audioDigest }, sections };
}

/** Answers found anew from the bars, sections and layers, by the words of the question. */
function solve(ask: string, track: TrackAnalysis): string | null {
  const { bars, sections, phrases } = track;
  const at = (bar: number) => `bar ${bar}, ${clock(bars[bar - 1].start)}`;
  const section = (name: string) => sections.find((s) => s.function === (name === 'main part' ? 'main' : name))!;
  const beats = (from: number, to: number) => bars.slice(from - 1, to).reduce((sum, b) => sum + b.beats, 0);
  const said = (n: number, all: number) => `${n} bars, ${all} beats`;
  const layerOf = (name: string): Layer => (name === 'drums' ? 'kick' : (name as Layer));
  const find = (pattern: RegExp) => pattern.exec(ask)?.slice(1);

  const enters = find(/^On which bar does the (\w+) first come in/);
  if (enters) return at(track.layers[layerOf(enters[0])].findIndex((p) => p !== null && p > 0.5) + 1);
  const leaves = find(/^On which bar does the (\w+) first drop out/);
  if (leaves) {
    const heard = track.layers[layerOf(leaves[0])].map((p) => p !== null && p > 0.5);
    return at(heard.findIndex((on, i) => i > 0 && !on && heard[i - 1]) + 1);
  }
  const begins = find(/^Where does the (.+?) (?:land|begin)\?/);
  if (begins) return at(section(begins[0]).startBar);
  const heardFrom = find(/^Which layers do you hear from bar (\d+) on/);
  if (heardFrom) {
    const on = LAYERS.filter((l) => (track.layers[l][Number(heardFrom[0]) - 1] ?? 0) > 0.5);
    return on.length < 2 ? on.join() : `${on.slice(0, -1).join(', ')} and ${on.at(-1)}`;
  }
  if (ask.startsWith('How much room is there to mix in')) {
    const { startBar, endBar } = section('intro');
    return `${endBar - startBar + 1} bars, ${clock(bars[endBar].start - bars[0].start, 0)}`;
  }
  if (ask.startsWith('When the outro begins')) {
    const { startBar } = sections.at(-1)!;
    return `${bars.length - startBar + 1} bars, ${clock(track.source.durationSeconds - bars[startBar - 1].start, 0)}`;
  }
  if (ask.startsWith('How many bars has the usual phrase')) return said(track.phraseBars, track.phraseBars * 4);
  if (/^How many bars has the \S+ phrase\?/.test(ask)) {
    const names = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];
    const [word] = find(/has the (\S+) phrase/)!;
    const phrase = phrases[names.includes(word) ? names.indexOf(word) : parseInt(word, 10) - 1];
    return said(phrase.endBar - phrase.startBar + 1, beats(phrase.startBar, phrase.endBar));
  }
  if (ask.startsWith('Mark the one'))
    return `bars ${bars
      .filter((b) => b.phraseBar === 1)
      .map((b) => b.number)
      .join(', ')}`;
  const between = find(/^How many beats are there from the start of the (\S+) to the start of the drop/);
  if (between) {
    const [from, to] = [section(between[0]).startBar, section('drop').startBar];
    return said(to - from, beats(from, to - 1));
  }
  const next = find(/^The next record has an intro of (\d+) bars/);
  if (next) return at(section('outro').startBar - Number(next[0]));
  const lasts = find(/^How long would the (\S+) last at (\d+) BPM/);
  if (lasts) {
    const { startBar, endBar } = section(lasts[0]);
    return clock((beats(startBar, endBar) * 60) / Number(lasts[1]));
  }
  const shows = find(/^The player shows (\d+):(\d+)/)?.map(Number);
  if (shows) {
    const bar = bars.findLast((b) => b.start <= shows[0] * 60 + shows[1])!;
    return `of ${phrases[bar.phrase - 1].bars}: bar ${bar.number} of the track`;
  }
  if (ask.startsWith('One bar has')) {
    const odd = bars.slice(0, -1).filter((b) => b.beats !== 4);
    return odd.length === 1
      ? `bar ${odd[0].number}: ${odd[0].beats} beats; count again from bar ${odd[0].number + 1}`
      : 'several';
  }
  const counted = find(/on the first beat of bar (\d+)/);
  if (counted) {
    const bar = Number(counted[0]);
    const place = bar - phrases.find((p) => p.startBar <= bar && p.endBar >= bar)!.startBar;
    return `“${(place % 4) + 1}”`;
  }
  return null;
}

/** The phrases that are named as odd, and how many bars they have. */
function oddSolved(track: TrackAnalysis): readonly string[] {
  const { phraseBars: usual } = track;
  return track.phrases
    .filter((p) => p.bars !== usual && p.bars * 2 !== usual && p.bars !== usual * 2)
    .map((p) => `${p.bars} bar`);
}

const style = styleOf();
const asked = Array.from({ length: TRACKS }, (_, seed) => {
  const track = arrangement(seed + 1);
  return { track, levels: LEVELS.map((level) => questionsAbout(track, style, level, 6, 1 + (seed % 3))) };
});

describe(`the answer key of ${TRACKS} made-up arrangements`, () => {
  test('is right, by bars, sections and layers', () => {
    const kinds = new Set<string>();
    for (const { track, levels } of asked) {
      for (const { ask, answer } of levels.flat()) {
        const where = `${track.source.tags.title}: ${ask}`;
        if (/odd phrase|Does every phrase keep/.test(ask)) {
          expect(
            track.bars.slice(0, -1).every((b) => b.beats === 4),
            where,
          ).toBe(true);
          const odd = oddSolved(track);
          if (odd.length === 0) expect(answer, where).toBe('every phrase keeps to it');
          else expect(answer.split('; the ').length, where).toBe(odd.length);
          for (const bars of odd) expect(answer, where).toContain(bars);
        } else {
          const solved = solve(ask, track);
          expect(solved, where).not.toBeNull();
          if (/^(The player|You count)/.test(ask)) expect(answer, where).toContain(solved!);
          else expect(answer, where).toBe(solved);
        }
        kinds.add(
          ask
            .replace(/[\d:.]+/g, '#')
            .split(' ')
            .slice(0, 6)
            .join(' '),
        );
      }
    }
    expect(kinds.size).toBeGreaterThan(16);
  });

  test('has a sheet of at least three questions on every level for most of them', () => {
    for (const level of LEVELS) {
      const enough = asked.filter(({ levels }) => levels[level - 1].length >= 3).length;
      expect(enough, `level ${level}`).toBeGreaterThan(TRACKS * 0.75);
    }
  });

  test('asks on each level what the other levels do not, but for the whole pattern of a track', () => {
    for (const { track, levels } of asked) {
      const [one, two, three] = levels.map((questions) => questions.map((q) => q.ask));
      const shared = [...one, ...two].filter((ask) => three.includes(ask) || (one.includes(ask) && two.includes(ask)));
      expect(
        shared.filter((ask) => !/^(Does every phrase|Mark the one)/.test(ask)),
        track.source.tags.title!,
      ).toEqual([]);
    }
  });
});
