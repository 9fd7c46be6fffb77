export { matchTracks, type MatchOptions } from './match.js';
export { FADER_RANGE, matchTempos, semitonesOf, TEMPO_CHANGES, type TempoChange, type TempoMatch } from './tempo.js';
export { keyFit, meetKeys, type KeyMeeting } from './keys.js';
export type { AlignedStretch, MatchPlan, OneOf, Place, PlanAction, PlanStep, TrackMatch } from './places.js';
export {
  EXACT_UP_TO,
  orderTracks,
  type OrderedStep,
  type OrderedTrack,
  type OrderOptions,
  type RunningOrder,
} from './order/order.js';
export { wishesKept, type WishOutcome } from './order/kept.js';
export { SHAPES, type OrderWishes, type ShapeName } from './order/wishes.js';
export { MATCH_VERSION, matchJsonSchema, trackMatchSchema } from './schema.js';
