import { softmax } from '../../src/learned/index.js';
import type { Held } from './train-folds.js';

/** One line a group: songs, share of right tempo (4 %) at the level and at any level, mean score, share right, log loss. */
export function report(title: string, held: readonly Held[], temperature: number): string[] {
  return [...new Set(held.map((h) => h.example.group))].flatMap((group) =>
    [false, true].flatMap((cut) => {
      const part = held.filter(({ example }) => example.group === group && example.cut > 0 === cut);
      if (part.length === 0) return [];
      const chosen = part.map(({ scores }) => scores.indexOf(Math.max(...scores)));
      const share = (is: (h: Held, k: number) => number) =>
        part.reduce((s, h, i) => s + is(h, chosen[i]), 0) / part.length;
      const near = (ratio: number, levels: readonly number[]) =>
        Number(levels.some((m) => Math.abs(ratio / m - 1) < 0.04));
      const loss = share(({ example, scores }) => {
        const p = softmax(scores.map((s) => s / temperature));
        return -Math.log(
          Math.max(
            1e-4,
            p.reduce((s, v, i) => (example.right[i] ? s + v : s), 0),
          ),
        );
      });
      return [
        `${title} · ${group}${cut ? ', cut' : ''} · n ${part.length} · accuracy 1 ${share((h, k) => near(h.example.ratios[k], [1])).toFixed(3)}` +
          ` · accuracy 2 ${share((h, k) => near(h.example.ratios[k], [1, 2, 3, 1 / 2, 1 / 3])).toFixed(3)}` +
          ` · score ${share((h, k) => h.example.scores[k]).toFixed(3)} · right ${share((h, k) => Number(h.example.right[k])).toFixed(3)} · log loss ${loss.toFixed(3)}`,
      ];
    }),
  );
}
