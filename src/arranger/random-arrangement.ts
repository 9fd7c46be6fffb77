import { PITCH_CLASSES } from '../units/index.js';
import type { Bpm, Fraction, Mode } from '../units/index.js';
import { STYLES } from './arrangement.js';
import type { Arrangement, StyleName } from './arrangement.js';
import { seededRandom } from './random.js';
import type { Random } from './random.js';
import { drawForm } from './random-form.js';
import { plantIrregularity } from './random-irregularity.js';

/** What may be fixed about a drawn arrangement. */
export interface DrawOptions {
  readonly style?: StyleName;
  readonly bpm?: Bpm;
  /** How likely something irregular is planted; 0.5 when left out. */
  readonly irregular?: Fraction;
}

/** Tempos at which the styles are usual, lowest and highest. */
const TEMPOS: Readonly<Record<StyleName, readonly [Bpm, Bpm]>> = {
  'warm-four': [116, 126],
  'bright-four': [120, 130],
  'driving-four': [124, 136],
  'hard-four': [134, 150],
  'slow-swing': [82, 104],
  'broken-step': [124, 138],
  'quick-breaks': [164, 178],
  'live-band': [96, 124],
  'lilting-three': [96, 138],
};

const PROGRESSIONS: Readonly<Record<Mode, readonly (readonly number[])[]>> = {
  minor: [
    [1, 1, 6, 7],
    [1, 6, 3, 7],
    [1, 4, 6, 5],
    [1, 1, 4, 5],
    [1, 7, 6, 7],
    [1, 1, 1, 1, 6, 6, 7, 7],
    [1, 1, 4, 4, 6, 6, 5, 5],
    [1, 3, 7, 4, 1, 3, 6, 5],
    [1, 1, 1, 1],
  ],
  major: [
    [1, 5, 6, 4],
    [1, 4, 1, 5],
    [1, 6, 4, 5],
    [1, 1, 4, 5],
    [1, 3, 4, 5, 1, 3, 6, 5],
    [1, 1, 2, 2, 4, 4, 1, 1],
  ],
};

function drawTempo(range: readonly [Bpm, Bpm], random: Random): Bpm {
  const bpm = random.between(range[0], range[1]);
  return random.chance(0.8) ? Math.round(bpm) : Math.round(bpm * 100) / 100;
}

/**
 * Draws a plausible arrangement for a seed: style, tempo, key, lengths, layers and, sometimes, irregularities.
 * @example randomArrangement(7).parts[0].function // 'intro'
 */
export function randomArrangement(seed: number, options: DrawOptions = {}): Arrangement {
  const random = seededRandom(seed).fork('arrangement');
  const style = options.style ?? random.pick(STYLES);
  const mode = random.chance(0.75) ? 'minor' : 'major';
  const bpm = options.bpm ?? drawTempo(TEMPOS[style], random);
  const beatsPerBar = style === 'lilting-three' ? 3 : 4;
  const straight = style === 'hard-four' || style === 'driving-four' || style === 'quick-breaks';
  const regular: Arrangement = {
    seed,
    style,
    bpm,
    beatsPerBar,
    swing: straight || random.chance(0.3) ? 0.5 : random.between(0.52, 0.62),
    key: { tonic: random.pick(PITCH_CLASSES), mode },
    progression: random.pick(PROGRESSIONS[mode]),
    breakProgression: random.pick(PROGRESSIONS[mode]),
    leadIn: random.chance(0.3) ? 0 : Math.round(random.between(0.02, 0.6) * 1000) / 1000,
    ...(style === 'live-band'
      ? { drift: { depth: random.between(0.006, 0.016), jitter: random.between(0.002, 0.006) } }
      : {}),
    parts: drawForm(random.fork('form'), style),
  };
  const planting = random.fork('irregularity');
  return planting.chance(options.irregular ?? 0.5) ? plantIrregularity(regular, planting) : regular;
}
