import type { Calibration } from '../calibration.js';

/** Lines from a confidence as the stages have it to one that is right as often as it says. Written by tests/corpus/held-out.ts. */
// prettier-ignore
export const CALIBRATIONS: Readonly<Record<'tempo' | 'beatPhase' | 'downbeat' | 'phrase' | 'section', Calibration>> = {"tempo":{"slope":1,"offset":0},"beatPhase":{"slope":1,"offset":0},"downbeat":{"slope":1,"offset":0},"phrase":{"slope":0.623,"offset":0.881},"section":{"slope":0.496,"offset":0.696}};
