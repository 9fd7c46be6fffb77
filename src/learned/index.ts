export { logitScore, softmax, type LogitWeights } from './logit.js';
export { fitConditionalLogit, fitTemperature, type Choice, type Fit, type FitOptions } from './fit.js';
export { calibrated, fitCalibration, SUREST, type Calibration } from './calibration.js';
export { minimise, type Objective } from './minimise.js';
export { CALIBRATIONS } from './weights/calibration.js';
export { DOWNBEAT_WEIGHTS } from './weights/downbeat.js';
export { LEVEL_WEIGHTS } from './weights/level.js';
export { PHASE_WEIGHTS } from './weights/phase.js';
