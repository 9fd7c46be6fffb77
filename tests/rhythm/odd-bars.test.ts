import { describe, expect, it } from 'vitest';
import { barPath } from '../../src/rhythm/bar-path.js';
import { ODD_BAR_CUES, oddBarCandidates } from '../../src/rhythm/odd-bar-cues.js';
import { findOddBars } from '../../src/rhythm/odd-bars.js';
import type { SlipEvidence } from '../../src/rhythm/slips.js';

/** First beats of bars of four, some of them with beats too many or too few. */
function firsts(bars: number, odd: ReadonlyMap<number, number> = new Map()): number[] {
  const out = [0];
  for (let bar = 1; bar < bars; bar++) out.push(out[bar - 1] + 4 + (odd.get(bar) ?? 0));
  return out;
}

/** Evidence as clear as in plain dance music: so many units more for every bar that starts rightly. */
function evidenceFor(starts: readonly number[], units = 30): Float64Array {
  const out = new Float64Array(starts[starts.length - 1] + 4);
  for (const b of starts) out[b] = units;
  return out;
}

/** Music that repeats: beats missing before one of these beats are heard there, and nowhere else. */
const slipsAt =
  (seams: ReadonlyMap<number, number>): SlipEvidence =>
  (beat, missing) =>
    seams.get(beat) === missing ? 25 : -8;

describe('odd bars', () => {
  it.each([
    ['a beat too many', 1],
    ['two beats too many', 2],
    ['a beat too few', -1],
    ['two beats too few', -2],
  ])('are found with %s, where the music says so', (_, surplus) => {
    const starts = firsts(64, new Map([[33, surplus]]));
    const slip = slipsAt(new Map([[starts[33], -surplus]]));
    const scene = { evidence: evidenceFor(starts).map((v) => 0.025 * v), beatsPerBar: 4, slip };
    expect(findOddBars(scene)).toEqual([expect.objectContaining({ beat: starts[33], surplus })]);
    const path = barPath(evidenceFor(starts), 4, [], slip);
    expect(path.starts).toEqual(starts);
    expect(path.jumps.map((j) => j.beat)).toEqual([starts[33]]);
    expect(path.jumps[0].gain).toBeGreaterThan(0);
  });

  it('are found where there are two, the second one counted with the first', () => {
    const starts = firsts(96, new Map([[33, 2], [65, -1]])); // prettier-ignore
    const slip = slipsAt(new Map([[starts[33], -2], [starts[65], 1]])); // prettier-ignore
    expect(barPath(evidenceFor(starts), 4, [], slip).starts).toEqual(starts);
  });

  it('are not told in music that goes straight on', () => {
    const starts = firsts(64);
    expect(barPath(evidenceFor(starts), 4, [], slipsAt(new Map()))).toEqual({ starts, jumps: [] });
  });

  it('are not told where the evidence of two bars strays and nothing repeats otherwise', () => {
    const starts = firsts(64);
    const evidence = evidenceFor(starts);
    for (const b of [starts[30], starts[31]]) [evidence[b], evidence[b + 1]] = [evidence[b + 1], evidence[b]];
    expect(barPath(evidence, 4, [], slipsAt(new Map())).starts).toEqual(starts);
  });

  it('are described by as many cues as have names', () => {
    const starts = firsts(40);
    const scene = { evidence: evidenceFor(starts), beatsPerBar: 4, slip: slipsAt(new Map()) };
    for (const { cues } of oddBarCandidates(scene)) expect(cues).toHaveLength(ODD_BAR_CUES.length);
  });
});

describe('a person who says where a bar starts', () => {
  const starts = firsts(64, new Map([[33, 1]]));
  const slip = slipsAt(new Map([[starts[33], -1]]));

  it('moves every bar with it, and the odd one too', () => {
    const moved = barPath(evidenceFor(starts), 4, [starts[8] + 1], slip).starts;
    const lengths = moved.slice(1).map((b, i) => b - moved[i]);
    expect(moved.slice(0, 32)).toEqual(starts.slice(0, 32).map((b) => b + 1));
    expect(lengths.filter((beats) => beats !== 4)).toEqual([5]);
    expect([31, 32]).toContain(lengths.indexOf(5));
  });

  it('changes nothing by what is so already', () => {
    expect(barPath(evidenceFor(starts), 4, [starts[8], starts[50]], slip).starts).toEqual(starts);
  });

  it('is heard where two of those words need a bar of another length between them', () => {
    const path = barPath(evidenceFor(starts), 4, [starts[8], starts[20] + 2], slip);
    expect(path.starts).toContain(starts[8]);
    expect(path.starts).toContain(starts[20] + 2);
  });
});
