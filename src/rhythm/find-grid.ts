import { logitScore, softmax } from '../learned/index.js';
import type { FrontEnd } from '../signal/index.js';
import { BarwiseError, throwIfAborted, type RunOptions } from '../units/index.js';
import { beatFeatures } from './beat-features.js';
import { downbeatCues, foldedCues } from './downbeat-cues.js';
import type { Grid, GridBar, GridConstraints } from './grid.js';
import { logPowers, onsetCurves } from './onsets.js';
import { regularBeats } from './readings.js';
import { fitSteady } from './steady-fit.js';
import { transientsNear } from './transients.js';
import { weighBeats } from './weigh-beats.js';
import { DOWNBEAT_WEIGHTS } from '../learned/index.js';

/** Shorter music has too few beats to count on (s). */
const SHORTEST = 8;

/** Mean power below this is silence (−90 dB re full scale). */
const SILENCE = 1e-9;

/**
 * Finds tempo, beats, downbeats and bars.
 * @throws BarwiseError `silent`, `too-short`, `no-steady-beat` or `aborted`; `file` is left to the caller
 */
export function findGrid(frontEnd: FrontEnd, constraints: GridConstraints = {}, options: RunOptions = {}): Grid {
  if (!(frontEnd.meanPower > SILENCE))
    throw new BarwiseError('silent', 'The file is silent: there is nothing to count.');
  if (frontEnd.duration < SHORTEST) {
    throw new BarwiseError('too-short', `The file is shorter than ${SHORTEST} seconds: too short to find its beats.`);
  }
  throwIfAborted(options.signal);
  const logs = logPowers(frontEnd.bands);
  const onsets = onsetCurves(frontEnd, logs);
  const weighed = weighBeats(frontEnd, onsets, constraints);
  const chosen = weighed.chosen;
  const fit = fitSteady(transientsNear(frontEnd, chosen.beats), chosen.beats);
  const period = fit ? fit.period : 1 / chosen.frequency;
  const phase = fit ? fit.offset : chosen.beats[0];
  const beats = regularBeats(period, ((phase % period) + period) % period, frontEnd.duration);
  throwIfAborted(options.signal);

  const cues = downbeatCues(beatFeatures(frontEnd, logs, onsets, beats));
  const scores = [0, 1, 2, 3].map((p) => logitScore(DOWNBEAT_WEIGHTS, foldedCues(cues, 4, p)));
  const shares = softmax(scores);
  const first = shares.indexOf(Math.max(...shares));
  const bars: GridBar[] = [];
  if (first > 0) bars.push({ number: 0, start: beats[0], end: beats[first], beats: first, firstBeat: 0 });
  for (let b = first; b < beats.length; b += 4) {
    const end = beats[b + 4] ?? beats[beats.length - 1] + period * Math.min(1, b + 4 - beats.length + 1);
    bars.push({
      number: bars.length + (first > 0 ? 0 : 1),
      start: beats[b],
      end,
      beats: Math.min(4, beats.length - b),
      firstBeat: b,
    });
  }
  const bpm = 60 / period;
  return {
    tempo: {
      bpm,
      confidence: weighed.tempos[0].weight,
      alternatives: weighed.tempos.map((t, i) => (i === 0 ? { ...t, bpm } : t)),
      steadiness: 'constant',
      pieces: [{ start: beats[0], end: beats[beats.length - 1], bpm }],
    },
    metre: {
      beatsPerBar: 4,
      confidence: 0.9,
      alternatives: [
        { beatsPerBar: 4, weight: 0.9 },
        { beatsPerBar: 3, weight: 0.1 },
      ],
    },
    beats: Array.from(beats),
    bars,
    downbeat: {
      confidence: shares[first],
      alternatives: [0, 1, 2, 3]
        .map((s) => ({ shiftBeats: s, weight: shares[(first + s) % 4] }))
        .sort((a, b) => b.weight - a.weight),
    },
    beatPhase: { confidence: weighed.phases[0].weight, alternatives: weighed.phases },
    swing: null,
    irregularities: [],
  };
}
