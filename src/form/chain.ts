/** A linear chain: the score of each state at each place, and of each step into it from the place before, in nats. */
export interface Chain {
  /** `own[place][state]`. */
  readonly own: readonly (readonly number[])[];
  /** `step[place][from][to]`; the first place has none and its entry is not read. */
  readonly step: readonly (readonly (readonly number[])[])[];
}

/** What a chain says: the most likely course, and how likely each state and each step is. */
export interface ChainReading {
  readonly path: readonly number[];
  /** `posterior[place][state]`. */
  readonly posterior: readonly (readonly number[])[];
  /** `pairs[place][from][to]`; empty for the first place. */
  readonly pairs: readonly (readonly (readonly number[])[])[];
  /** Log of the summed weight of every course. */
  readonly logTotal: number;
}

/** Viterbi and forward–backward over a chain of at least one place (Rabiner, Proc. IEEE 1989). */
export function readChain({ own, step }: Chain): ChainReading {
  const n = own.length;
  const forward: number[][] = [];
  const best: number[][] = [];
  const from: number[][] = [];
  own.forEach((scores, i) => {
    const into = (table: number[][], to: number) => table[i - 1].map((v, a) => v + step[i][a][to]);
    forward.push(scores.map((s, k) => s + (i > 0 ? logSum(into(forward, k)) : 0)));
    best.push(scores.map((s, k) => s + (i > 0 ? Math.max(...into(best, k)) : 0)));
    from.push(scores.map((_, k) => (i > 0 ? indexOfMax(into(best, k)) : 0)));
  });
  const backward = own.map((scores) => scores.map(() => 0));
  for (let i = n - 2; i >= 0; i--)
    backward[i] = own[i].map((_, a) => logSum(own[i + 1].map((s, b) => step[i + 1][a][b] + s + backward[i + 1][b])));
  const logTotal = logSum(forward[n - 1]);
  const path = new Array<number>(n);
  for (let i = n - 1; i >= 0; i--) path[i] = i === n - 1 ? indexOfMax(best[i]) : from[i + 1][path[i + 1]];
  return {
    path,
    posterior: forward.map((row, i) => row.map((v, k) => Math.exp(v + backward[i][k] - logTotal))),
    pairs: own.map((scores, i) =>
      i === 0
        ? []
        : forward[i - 1].map((v, a) =>
            scores.map((s, b) => Math.exp(v + step[i][a][b] + s + backward[i][b] - logTotal)),
          ),
    ),
    logTotal,
  };
}

function indexOfMax(values: readonly number[]): number {
  return values.indexOf(Math.max(...values));
}

function logSum(values: readonly number[]): number {
  const top = Math.max(...values);
  return top + Math.log(values.reduce((s, v) => s + Math.exp(v - top), 0));
}
