/** A place where bars stop following each other every `beatsPerBar` beats. */
export interface BarJump {
  /** The beat on which the bar after the odd one starts. */
  readonly beat: number;
  /** Beats of the odd bar before it. */
  readonly beats: number;
  /** Evidence won by the jump, in nats, its price taken off. */
  readonly gain: number;
}

/** Nats that a bar's evidence is worth, per unit of the whole-track score. */
const EVIDENCE = 0.12;
/** Nats for an odd bar (methods, stage 5). */
const JUMP = 7;

/** The likeliest first beats of bars. */
export interface BarPath {
  /** Indices of the beats on which bars start, ascending. */
  readonly starts: readonly number[];
  readonly jumps: readonly BarJump[];
}

/**
 * Viterbi over the place of each beat in its bar: moving on by one is free, any other move costs JUMP (methods, stages 4 and 5;
 * the state space of Krebs, Böck & Widmer, "An efficient state-space model for joint tempo and meter tracking", ISMIR
 * 2015, reduced to whole beats).
 * @param evidence for a bar starting on each beat
 * @param fixed beats on which a bar must start
 */
export function barPath(
  evidence: Float64Array,
  beatsPerBar: number,
  fixed: readonly number[] = [],
  jump = JUMP,
  scale = EVIDENCE,
): BarPath {
  const n = evidence.length;
  const m = beatsPerBar;
  const must = new Set(fixed);
  let score = new Float64Array(m);
  const back = new Int8Array(n * m);
  const mean = evidence.reduce((a, b) => a + b, 0) / Math.max(n, 1);
  for (let b = 0; b < n; b++) {
    const next = new Float64Array(m);
    let top = 0;
    for (let p = 1; p < m; p++) if (score[p] > score[top]) top = p;
    for (let p = 0; p < m; p++) {
      const before = (p + m - 1) % m;
      // A bar may end early or late only where the next one starts.
      const leaps = b > 0 && p === 0 && score[top] - jump > score[before];
      const from = leaps ? top : before;
      next[p] = b === 0 ? 0 : leaps ? score[top] - jump : score[before];
      if (p === 0) next[p] += scale * (evidence[b] - mean) + (must.has(b) ? 1e6 : 0);
      back[b * m + p] = from;
    }
    score = next;
  }
  let p = score.indexOf(Math.max(...score));
  const places = new Int8Array(n);
  for (let b = n - 1; b >= 0; b--) {
    places[b] = p;
    p = back[b * m + p];
  }
  const starts: number[] = [];
  for (let b = 0; b < n; b++) if (places[b] === 0) starts.push(b);
  return { starts, jumps: jumpsOf(starts, evidence, m, jump, scale) };
}

function jumpsOf(
  starts: readonly number[],
  evidence: Float64Array,
  m: number,
  price: number,
  scale: number,
): BarJump[] {
  const jumps: BarJump[] = [];
  for (let i = 1; i < starts.length; i++) {
    const beats = starts[i] - starts[i - 1];
    if (beats === m) continue;
    // What the bars up to the next odd one hold, against going on as before.
    let gain = -price;
    for (let j = i; j < starts.length && (j === i || starts[j] - starts[j - 1] === m); j++) {
      const unbroken = starts[j] + ((m - (beats % m)) % m);
      gain += scale * (evidence[starts[j]] - (evidence[unbroken] ?? 0));
    }
    jumps.push({ beat: starts[i], beats, gain });
  }
  return jumps;
}
