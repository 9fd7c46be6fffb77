import { beforeAll, describe, expect, it } from 'vitest';
import { findForm, type Form } from '../../src/form/index.js';
import type { Grid } from '../../src/rhythm/index.js';
import { explain } from '../../src/wording/index.js';
import { arranged, part, track, type ArrangedTrack } from './arranged.js';

/** Whatever was found: bars tile groups, groups and phrases tile, sections are unions of phrases. */
function expectPartition(form: Form, grid: Grid): void {
  const numbers = grid.bars.map((b) => b.number);
  for (const spans of [form.phrases, form.sections]) {
    expect(spans.flatMap((s) => numbers.filter((n) => n >= s.startBar && n <= s.endBar))).toEqual(numbers);
    spans.forEach((s, i) => {
      expect(s.start).toBe(grid.bars[s.startBar - numbers[0]].start);
      if (i + 1 < spans.length) expect(spans[i + 1].start).toBe(s.end);
    });
  }
  const starts = form.phrases.map((p) => p.startBar);
  expect(form.sections.every((s) => starts.includes(s.startBar))).toBe(true);
  expect(form.groups).toHaveLength(numbers.length);
  form.groups.forEach(({ group, groupBar }, i) => {
    expect(groupBar).toBeGreaterThanOrEqual(1);
    expect(groupBar).toBeLessThanOrEqual(4);
    if (starts.includes(numbers[i])) expect(groupBar).toBe(1);
    if (i > 0) expect(group - form.groups[i - 1].group).toBe(groupBar === 1 ? 1 : 0);
  });
  for (const values of Object.values(form.layers)) expect(values).toHaveLength(numbers.length);
}

const startBars = (form: Form) => form.phrases.map((p) => p.startBar);
const kinds = (form: Form) => form.irregularities.map((i) => [i.kind, i.bar]);

describe('a regular track', () => {
  let made: ArrangedTrack;
  let form: Form;
  beforeAll(() => {
    made = arranged(
      track([
        part('intro', [8, 'kp']),
        part('main', [8, 'kpb'], [8, 'kpbh', { fill: 'toms' }]),
        part('breakdown', [8, 'h', { textures: ['pad'] }]),
        part('drop', [8, 'kpbh', { fill: 'snare-roll' }], [8, 'kpbhv']),
        part('outro', [8, 'kp']),
      ]),
    );
    form = findForm(made.frontEnd, made.grid);
  });

  it('is tiled by groups, phrases and sections', () => expectPartition(form, made.grid));

  it('has its phrases where they were arranged, and nothing irregular but a breakdown without a beat', () => {
    expect(startBars(form)).toEqual(made.truth.phrases.map((p) => p.startBar));
    expect(kinds(form)).toEqual([['beatless-passage', 25]]);
    expect(form.phrases.every((p) => p.regular)).toBe(true);
  });

  it('says where it breaks down, where the drop lands, and begins and ends with intro and outro', () => {
    const at = (bar: number) => form.sections.find((s) => s.startBar <= bar && s.endBar >= bar)!.function;
    expect([1, 26, 33, 49].map(at)).toEqual(['intro', 'breakdown', 'drop', 'outro']);
  });

  it('hears kick and bass leave for the breakdown and come back with the drop, by several dB', () => {
    for (const layer of ['kick', 'bass'] as const) {
      const own = form.events.filter((e) => e.layer === layer && e.bar > 17);
      const out = own.find((e) => e.change === 'leaves')!;
      const back = own.find((e) => e.change === 'enters')!;
      expect(out.bar).toBe(25);
      expect(back.bar).toBe(33);
      expect(out.decibels).toBeLessThan(-6);
      expect(back.decibels).toBeGreaterThan(6);
    }
  });

  it('is the same 20 dB lower', () => {
    const quiet = arranged(
      track([
        part('intro', [8, 'kp']),
        part('main', [8, 'kpb'], [8, 'kpbh', { fill: 'toms' }]),
        part('breakdown', [8, 'h', { textures: ['pad'] }]),
        part('drop', [8, 'kpbh', { fill: 'snare-roll' }], [8, 'kpbhv']),
        part('outro', [8, 'kp']),
      ]),
      0.1,
    );
    const other = findForm(quiet.frontEnd, quiet.grid);
    expect(startBars(other)).toEqual(startBars(form));
    expect(other.sections.map((s) => [s.startBar, s.function, s.letter])).toEqual(
      form.sections.map((s) => [s.startBar, s.function, s.letter]),
    );
    expect(other.events.map((e) => [e.bar, e.layer, e.change])).toEqual(
      form.events.map((e) => [e.bar, e.layer, e.change]),
    );
  });

  it("keeps a person's word: a phrase start, none, and a section's function", () => {
    const time = (bar: number) => made.grid.bars[bar - 1].start;
    const told = findForm(made.frontEnd, made.grid, {
      phraseStarts: [time(19)],
      noPhraseStarts: [time(17)],
      sections: [{ start: time(41), function: 'main' }],
    });
    expectPartition(told, made.grid);
    expect(startBars(told)).toContain(19);
    expect(startBars(told)).not.toContain(17);
    expect(told.sections.find((s) => s.startBar === 41)?.function).toBe('main');
  });

  it('stops when it is told to', () => {
    expect(() => findForm(made.frontEnd, made.grid, {}, { signal: AbortSignal.abort() })).toThrow(/Stopped/);
  });
});

describe('planted irregularities', () => {
  it('names two bars that were added before the drop, in a sentence with bars and times', () => {
    const { frontEnd, grid } = arranged(
      track([
        part('intro', [8, 'kp']),
        part('main', [8, 'kpbh']),
        part('build-up', [10, 'ph', { addedBars: 2, riserBars: 8 }]),
        part('drop', [8, 'kpbh'], [8, 'kpbh', { fill: 'toms' }]),
      ]),
    );
    const form = findForm(frontEnd, grid);
    expectPartition(form, grid);
    expect(kinds(form)).toEqual([['added-bars', 25]]);
    expect(explain(form.irregularities[0], { grid, form })).toMatch(
      /^The [a-z-]+ of bars 17–26 is two bars longer than this track's 8: bars 25 and 26 [^;]+; the next phrase starts at bar 27, count again from 0:4\d\.\d\.$/,
    );
  });

  it('names bars that were dropped, at the bar where the next phrase starts early', () => {
    const { frontEnd, grid } = arranged(
      track(
        [
          part('intro', [8, 'kp']),
          part('main', [8, 'kpbh']),
          part('breakdown', [6, 'h', { addedBars: -2, textures: ['pad'] }]),
          part('drop', [8, 'kpbh'], [8, 'kpbh', { fill: 'toms' }]),
        ],
        { seed: 72 },
      ),
    );
    expect(kinds(findForm(frontEnd, grid))).toEqual([['dropped-bars', 23]]);
  });

  it('tells a pick-up from a shifted phrase', () => {
    const { frontEnd, grid } = arranged(
      track(
        [
          part('intro', [8, 'kp']),
          part('main', [8, 'kpbv', { pickUp: { beats: 3, layers: ['bass', 'voice'] } }], [8, 'kpbv']),
          part('outro', [8, 'kp']),
        ],
        { style: 'slow-swing', bpm: 96, swing: 0.58 },
      ),
    );
    const form = findForm(frontEnd, grid);
    expect(startBars(form)).toEqual([1, 9, 17, 25]);
    expect(kinds(form)).toEqual([['pick-up', 9]]);
    expect(form.irregularities[0]).toMatchObject({ beats: 3 });
    expect(form.events.find((e) => e.layer === 'bass' && e.change === 'enters')).toMatchObject({ bar: 8, beat: 2 });
  });

  it('takes an eight among sixteens, and four bars more, as regular', () => {
    const { frontEnd, grid } = arranged(
      track(
        [part('intro', [16, 'kp']), part('breakdown', [8, 'h']), part('drop', [16, 'kpbh']), part('outro', [12, 'kp'])],
        { style: 'driving-four', bpm: 132 },
      ),
    );
    expect(findForm(frontEnd, grid).irregularities).toEqual([]);
  });

  it('passes on what the grid found, in order of time', () => {
    const { frontEnd, grid } = arranged(track([part('main', [8, 'kpbh'], [8, 'kpb'])]));
    const drift = {
      kind: 'drift',
      bar: 1,
      time: 0,
      lowestBpm: 120,
      highestBpm: 130,
      confidence: 1,
      evidence: {},
    } as const;
    expect(findForm(frontEnd, { ...grid, irregularities: [drift] }).irregularities[0]).toEqual(drift);
  });
});

describe('what rings on after the end', () => {
  it('belongs to the last phrase and makes no phrase of its own', () => {
    const { frontEnd, grid, truth } = arranged(
      track([part('intro', [8, 'kp']), part('main', [8, 'kpbh'], [8, 'kpb'])]),
    );
    const last = grid.bars[grid.bars.length - 1];
    const length = last.end - last.start;
    const beats = [...grid.beats, ...[0, 1, 2, 3].map((k) => last.end + (k * length) / 4)];
    const extra = { number: 25, start: last.end, end: last.end + length, beats: 4, firstBeat: 96 };
    const form = findForm(frontEnd, { ...grid, beats, bars: [...grid.bars, extra] });
    expect(startBars(form)).toEqual(truth.phrases.map((p) => p.startBar));
    expect(form.phrases[2]).toMatchObject({ endBar: 25, end: extra.end });
    expect(form.irregularities).toEqual([]);
  });
});

describe('tracks with next to nothing in them', () => {
  it('has an empty form on a grid without bars', () => {
    const { frontEnd, grid } = arranged(track([part('main', [1, 'k'])]));
    const form = findForm(frontEnd, { ...grid, bars: [], beats: [] });
    expect([form.phrases, form.sections, form.events, form.groups]).toEqual([[], [], [], []]);
  });

  it.each([1, 2, 3])('tiles %i bars', (bars) => {
    const { frontEnd, grid } = arranged(track([part('main', [bars, 'kp'])]));
    const form = findForm(frontEnd, grid);
    expectPartition(form, grid);
    expect(form.phrases.every((p) => p.confidence === null || (p.confidence >= 0 && p.confidence <= 1))).toBe(true);
  });

  it('finds no layer and no number that is not one in silence', () => {
    const { frontEnd, grid } = arranged(track([part('main', [8, 'kp'])]), 0);
    const form = findForm(frontEnd, grid);
    expectPartition(form, grid);
    expect(JSON.stringify(form)).not.toMatch(/NaN|Infinity/);
  });
});
