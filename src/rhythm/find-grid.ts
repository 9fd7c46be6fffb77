import { calibrated, CALIBRATIONS, softmax } from '../learned/index.js';
import type { FrontEnd } from '../signal/index.js';
import { BarwiseError, throwIfAborted, type RunOptions, type Seconds } from '../units/index.js';
import { barPath } from './bar-path.js';
import { makeBars } from './bars.js';
import { beatFeatures } from './beat-features.js';
import { describeBeats } from './describe-beats.js';
import { phaseScores } from './downbeat-evidence.js';
import { extendBeats } from './extend-beats.js';
import { soundExtent } from './extent.js';
import { countedSlower } from './counted-slower.js';
import type { Grid, GridConstraints } from './grid.js';
import { gridIrregularities } from './grid-irregularities.js';
import { hearFrontEnd, type Heard } from './heard.js';
import { layBeats } from './lay-beats.js';
import { findPulse } from './pulse.js';
import { ringOutBars } from './ring-out.js';
import { slipEvidence } from './slips.js';
import { swingRatio } from './swing.js';
import { beatsFrom, toldBars, toldBeat } from './told-bars.js';
import { weighBars } from './weigh-bars.js';

/** Shorter music has too few beats to count on (s). */
const SHORTEST: Seconds = 8;
/** Fewer beats than this are no grid. */
const FEWEST_BEATS = 8;
/** Mean power below this is silence (−90 dB re full scale). */
const SILENCE = 1e-9;
/** Pulse clarity below this is no beat: noise and speech stay under 0.3, music of the development songs over 0.5. */
const CLEAR = 0.36;

/**
 * Finds tempo, beats, downbeats and bars.
 * @throws BarwiseError `silent`, `too-short`, `no-steady-beat` or `aborted`; `file` is left to the caller
 */
export function findGrid(frontEnd: FrontEnd, told: GridConstraints = {}, options: RunOptions = {}): Grid {
  if (!(frontEnd.meanPower > SILENCE))
    throw new BarwiseError('silent', 'The file is silent: there is nothing to count.');
  const extent = soundExtent(frontEnd);
  if (extent.end - extent.start < SHORTEST) throw tooShort();
  const report = (done: number) => {
    throwIfAborted(options.signal);
    options.onProgress?.({ stage: 'rhythm', done });
  };
  report(0);
  const scene: Scene = { frontEnd, extent, heard: hearFrontEnd(frontEnd) };
  return gridUnder(
    scene,
    countedSlower(told, () => asHeard(scene, told, options.signal)),
    report,
  );
}

/** A track, where it sounds, and what is heard in it, whatever a person says. */
interface Scene {
  readonly frontEnd: FrontEnd;
  readonly extent: ReturnType<typeof soundExtent>;
  readonly heard: Heard;
}

/** The grid at the tempo that would be heard without a word about it; null where none is. */
function asHeard(scene: Scene, told: GridConstraints, signal: AbortSignal | undefined): Grid | null {
  const others: { -readonly [K in keyof GridConstraints]: GridConstraints[K] } = { ...told };
  delete others.tempo;
  try {
    return gridUnder(scene, others, () => throwIfAborted(signal));
  } catch (error) {
    if (error instanceof BarwiseError && error.code === 'no-steady-beat') return null;
    throw error;
  }
}

function gridUnder(
  { frontEnd, extent, heard }: Scene,
  constraints: GridConstraints,
  report: (done: number) => void,
): Grid {
  const pulse = findPulse(heard, constraints);
  const told = constraints.tempo !== undefined || toldBeat(constraints) !== undefined;
  if (pulse.clarity < CLEAR && !told) {
    throw new BarwiseError('no-steady-beat', 'No steady beat was found; if there is one, give its tempo.');
  }
  report(0.5);
  const laid = layBeats(frontEnd, pulse.expected, pulse.steady);
  const sounding = beatsFrom(extendBeats(laid, pulse.expected.length, extent), laid, constraints.firstOneAt);
  if (sounding.beats.length < FEWEST_BEATS) throw tooShort();
  report(0.7);

  const edges = [...sounding.beats, sounding.end];
  const features = beatFeatures(frontEnd, heard.logs, heard.onsets, edges);
  const rows = describeBeats(frontEnd, heard.logs, features, edges);
  const { metres, beatsPerBar, evidence } = weighBars(features, rows, constraints.beatsPerBar);
  const fixed = toldBars(sounding.beats, constraints);
  const slip = slipEvidence(rows, beatsPerBar);
  const path = barPath(evidence, beatsPerBar, fixed, slip);
  const { starts } = path;
  const all = makeBars(sounding.beats, starts, sounding.end);
  const bars = all.slice(0, all.length - ringOutBars(frontEnd, features, all));
  const { end } = bars[bars.length - 1];
  const beats = sounding.beats.filter((t) => t < end);
  const { shift } = sounding;
  const phase = (starts[0] ?? 0) % beatsPerBar;
  // A person's word on a one of a bar leaves no doubt about the others.
  const shares = fixed.length > 0 ? [1] : softmax(phaseScores(evidence, beatsPerBar));
  const share = shares[phase % shares.length];
  const [{ weight: tempoShare }] = pulse.tempos;
  const [{ weight: phaseShare }] = pulse.phases;
  report(0.95);

  const bpm = mainTempo(laid.pieces);
  return {
    tempo: {
      bpm,
      confidence: constraints.tempo === undefined ? calibrated(tempoShare, CALIBRATIONS.tempo) : tempoShare,
      alternatives: pulse.tempos.map((t, i) => (i === 0 ? { ...t, bpm } : t)),
      // Counted only because somebody said how: nothing steady is heard.
      steadiness: pulse.clarity < CLEAR ? 'free' : laid.steadiness,
      pieces: laid.pieces.map((p, i) => ({
        start: i === 0 ? beats[0] : laid.timeOf(p.from),
        end: laid.pieces[i + 1] ? laid.timeOf(laid.pieces[i + 1].from) : end,
        bpm: p.bpm,
      })),
    },
    metre: { beatsPerBar, confidence: metres[0].weight, alternatives: metres },
    beats,
    bars,
    downbeat: {
      confidence: fixed.length > 0 ? share : calibrated(share, CALIBRATIONS.downbeat),
      alternatives: shares
        .map((_, s) => ({ shiftBeats: s, weight: shares[(phase + s) % shares.length] }))
        .sort((a, b) => Number(b.shiftBeats === 0) - Number(a.shiftBeats === 0) || b.weight - a.weight),
    },
    beatPhase: {
      confidence: toldBeat(constraints) === undefined ? calibrated(phaseShare, CALIBRATIONS.beatPhase) : phaseShare,
      alternatives: pulse.phases,
    },
    swing: swingRatio(heard.onsets, beats),
    irregularities: gridIrregularities({ beats, bars, beatsPerBar, laid, shift, features, jumps: path.jumps, bpm }),
  };
}

function tooShort(): BarwiseError {
  return new BarwiseError(
    'too-short',
    `The music is shorter than ${SHORTEST} seconds or ${FEWEST_BEATS} beats: too short to count.`,
  );
}

/** The tempo of most beats. */
function mainTempo(pieces: readonly { from: number; to: number; bpm: number }[]): number {
  return [...pieces].sort((a, b) => b.to - b.from - (a.to - a.from))[0].bpm;
}
