export { matchTracks, type MatchOptions } from './match.js';
export { FADER_RANGE, matchTempos, semitonesOf, TEMPO_CHANGES, type TempoChange, type TempoMatch } from './tempo.js';
export { circlePlace, keyFit, meetKeys, type KeyMeeting, type NamedKey } from './keys.js';
export type { AlignedStretch, MatchPlan, OneOf, Place, PlanAction, PlanStep, TrackMatch } from './places.js';
