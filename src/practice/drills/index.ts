export { drillAhead } from './ahead.js';
export { drillPhraseMatched } from './phrase-matched.js';
export { drillTheOne } from './the-one.js';
export {
  DRILLS,
  type Drill,
  type DrillItem,
  type DrillName,
  type DrillOptions,
  type DrillReply,
  type DrillRules,
} from './drill.js';
