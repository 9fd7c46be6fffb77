import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { matchTracks } from '../../src/matching/index.js';
import { answerSheet, drillAhead, drillPhraseMatched, drillTheOne, HEARING_CAUTION } from '../../src/practice/index.js';
import { drawQuestions } from '../../src/practice/drills/draw.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { clickNear, clickRecord, energy, tempFolder } from './click-record.js';

let temp: Awaited<ReturnType<typeof tempFolder>>;
let a: TrackAnalysis;
let b: TrackAnalysis;
beforeAll(async () => {
  temp = await tempFolder();
  a = await clickRecord(temp.folder, 'a', 124, 1000);
  b = await clickRecord(temp.folder, 'b', 126, 3000);
});
afterAll(() => temp.remove());

describe('drills', () => {
  it('say when the one comes: silence for the bars it says, and back on the one of a group', async () => {
    const { sound, items } = await drillTheOne(a);
    expect(items.length).toBeGreaterThan(3);
    const bar = (4 * 60) / 124;
    for (const { time, question } of items) {
      const silent = Number(/for (\d+) bar/.exec(question)?.[1]);
      expect(energy(sound, time + 0.01, time + silent * bar - 0.01)).toBe(0);
      expect(energy(sound, time + silent * bar - 0.001, time + silent * bar + 0.05)).toBeGreaterThan(0);
      const number = Math.round((time + silent * bar - 0.5) / bar);
      expect(number % 4).toBe(0);
    }
  });

  it('are so many milliseconds apart as the answers say, from plain to hard', async () => {
    const { items, sound } = await drillAhead();
    const apart = items.map(({ answer }) => Number(/(\d+) ms/.exec(answer)?.[1]));
    expect(apart).toEqual([...apart].sort((x, y) => y - x));
    const beat = 60 / 124;
    for (const [i, { time, answer }] of items.entries()) {
      const at = time + 4 * beat;
      const [high, low] = [1760, 660].map((pitch) => clickNear(sound.left, pitch, at, 0.075));
      const lead = answer.includes('high') ? low - high : high - low;
      if (apart[i] >= 24) expect(Math.abs(lead * 1000 - apart[i])).toBeLessThan(6);
    }
  });

  it('ask the same with one seed and something else with another', async () => {
    const answers = async (seed: number) => (await drillAhead({ seed })).items.map(({ answer }) => answer).join();
    expect(await answers(1)).toBe(await answers(1));
    expect(new Set([await answers(1), await answers(2), await answers(3)]).size).toBeGreaterThan(1);
  });

  it('cannot be guessed: balanced, without a pattern, and what came before says nothing of what comes', () => {
    for (const [kinds, count] of [
      [3, 6],
      [2, 8],
    ] as const) {
      const lists = Array.from({ length: 600 }, (_, seed) =>
        drawQuestions(
          Array.from({ length: kinds }, (_, k) => k),
          count,
          seed,
        ),
      );
      for (const list of lists) {
        expect(new Set(list).size).toBe(kinds);
        expect(list.every((kind, i) => i % 2 === 0 || kind === list[i - 1])).toBe(false); // in pairs
        expect(list.slice(count / 2)).not.toEqual(list.slice(0, count / 2));
      }
      // somebody who is told every answer and names what came least so far is hardly better off than by chance
      const guessed = lists.flatMap((list) =>
        list.map((kind, i) => {
          const times = Array.from({ length: kinds }, (_, k) => list.slice(0, i).filter((x) => x === k).length);
          return times.indexOf(Math.min(...times)) === kind;
        }),
      );
      expect(guessed.filter(Boolean).length / guessed.length).toBeLessThan(1 / kinds + 0.15);
    }
  });

  it('tell a handover that is right from one that is a bar or a phrase off', async () => {
    const match = matchTracks(a, b);
    const drill = await drillPhraseMatched({ a, b, match, plan: match.plans[0] });
    const kinds = drill.items.map(({ answer }) => answer);
    expect(new Set(kinds).size).toBe(3);
    const sheet = answerSheet(drill);
    const [questions, answers] = sheet.split('\f');
    for (const answer of kinds) expect(questions).not.toContain(answer);
    for (const answer of kinds) expect(answers).toContain(answer);
    expect(sheet).toContain(HEARING_CAUTION);
  });
});
