import type { Calibration } from '../calibration.js';

/** Lines from a confidence as the stages have it to one that is right as often as it says. Written by tests/corpus/held-out.ts. */
// prettier-ignore
export const CALIBRATIONS: Readonly<Record<'tempo' | 'beatPhase' | 'downbeat' | 'phrase' | 'section', Calibration>> = {"tempo":{"slope":1,"offset":0},"beatPhase":{"slope":1,"offset":0},"downbeat":{"slope":0.768,"offset":0.777},"phrase":{"slope":0.694,"offset":0.648},"section":{"slope":0.609,"offset":0.917}};
