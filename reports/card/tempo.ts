import type { TrackAnalysis } from '../../src/index.js';
import { doubtQuestion, doubtWord, isSure, tempoDoubt, tempoNumber } from '../../src/wording/index.js';
import type { Style } from '../theme/index.js';

/** A tempo as a card shows it. */
export interface TempoWords {
  /** The figure itself, e.g. `124.00`, `87 or 174?`, `about 122–126`. */
  readonly figure: string;
  /** What stands beside it, e.g. `BPM, drifting`. */
  readonly unit: string;
}

/** Honest to what is known: two decimals only for a tempo held by a clock and sure; a range where it drifts. */
export function tempoWords(analysis: TrackAnalysis, { words }: Style): TempoWords {
  const { tempo, irregularities } = analysis;
  const { card } = words;
  if (tempo.steadiness === 'free') return { figure: card.noSteadyTempo, unit: card.tempoUnit.free };
  const question = tempoDoubt(analysis);
  if (question !== null) return { figure: doubtQuestion(question, words), unit: card.tempoUnit.constant };
  const pieces = tempo.pieces.map((p) => p.bpm);
  const unit = card.tempoUnit[tempo.steadiness];
  if (tempo.steadiness === 'drifting') {
    const drift = irregularities.find((i) => i.kind === 'drift')?.parameters ?? {};
    const told = [drift.lowestBpm, drift.highestBpm].filter((bpm) => typeof bpm === 'number');
    const all = [tempo.bpm, ...pieces, ...told];
    const [from, to] = [Math.round(Math.min(...all)), Math.round(Math.max(...all))];
    return { figure: card.about(from === to ? `${from}` : `${from}–${to}`), unit };
  }
  if (tempo.steadiness === 'steps' && new Set(pieces.map((b) => b.toFixed(1))).size > 1) {
    const steps = pieces.filter((b, i) => i === 0 || b.toFixed(1) !== pieces[i - 1].toFixed(1));
    if (steps.length <= 3) return { figure: steps.map((b) => tempoNumber(b, words)).join(' → '), unit };
    return { figure: `${Math.round(Math.min(...steps))}–${Math.round(Math.max(...steps))}`, unit };
  }
  const plain = card.tempoUnit.constant;
  if (isSure(tempo.confidence)) return { figure: words.number(tempo.bpm, 2, 'fixed'), unit: plain };
  const rounded = tempoNumber(Math.round(tempo.bpm * 10) / 10, words);
  return { figure: card.about(rounded), unit: `${plain}, ${doubtWord(tempo.confidence, words)}` };
}
