import type { TrackAnalysis } from '../../src/index.js';
import { doubtQuestion, doubtWord, tempoDoubt, tempoNumber } from '../../src/wording/index.js';

/** A tempo as a card shows it. */
export interface TempoWords {
  /** The figure itself, e.g. `124.00`, `87 or 174?`, `about 122–126`. */
  readonly figure: string;
  /** What stands beside it, e.g. `BPM, drifting`. */
  readonly unit: string;
}

/** Honest to what is known: two decimals only for a tempo held by a clock and sure; a range where it drifts. */
export function tempoWords(analysis: TrackAnalysis): TempoWords {
  const { tempo, irregularities } = analysis;
  if (tempo.steadiness === 'free') return { figure: 'no steady tempo', unit: '' };
  const question = tempoDoubt(analysis);
  if (question !== null) return { figure: doubtQuestion(question), unit: 'BPM' };
  const pieces = tempo.pieces.map((p) => p.bpm);
  if (tempo.steadiness === 'drifting') {
    const drift = irregularities.find((i) => i.kind === 'drift')?.parameters ?? {};
    const told = [drift.lowestBpm, drift.highestBpm].filter((bpm) => typeof bpm === 'number');
    const all = [tempo.bpm, ...pieces, ...told];
    const [from, to] = [Math.round(Math.min(...all)), Math.round(Math.max(...all))];
    return { figure: from === to ? `about ${from}` : `about ${from}–${to}`, unit: 'BPM, drifting' };
  }
  if (tempo.steadiness === 'steps' && new Set(pieces.map((b) => b.toFixed(1))).size > 1) {
    const steps = pieces.filter((b, i) => i === 0 || b.toFixed(1) !== pieces[i - 1].toFixed(1));
    if (steps.length <= 3) return { figure: steps.map((bpm) => tempoNumber(bpm)).join(', '), unit: 'BPM, in steps' };
    return { figure: `${Math.round(Math.min(...steps))}–${Math.round(Math.max(...steps))}`, unit: 'BPM, in steps' };
  }
  const doubt = doubtWord(tempo.confidence);
  if (doubt === doubtWord(1)) return { figure: tempo.bpm.toFixed(2), unit: 'BPM' };
  return { figure: `about ${tempoNumber(Math.round(tempo.bpm * 10) / 10)}`, unit: `BPM, ${doubt}` };
}
