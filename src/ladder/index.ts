export * from './geometry.js';
export { layoutLadder } from './layout.js';
export { PAPER_METRICS, SCREEN_METRICS, scaleMetrics } from './metrics.js';
export { measureText } from './measure.js';
export { breakAtSpaces } from './flow.js';
export { isDoubtful, DOUBT_BELOW } from './captions.js';
export { ladderToSvg, escapeXml, type LadderSvgOptions } from './svg.js';
export { paintLadder, type LadderPen, type PathStyle } from './paint.js';
export { layoutLegend, paintLegend, type LegendEntry, type LegendSource } from './legend.js';
export { LANES, unjudgedLayers } from './lanes.js';
export { describeLadder } from './describe.js';
export {
  hatch,
  HATCHES,
  HATCH_NAMES,
  INK_SAVING_HATCHES,
  type Figure,
  type HatchName,
  type LayerHatches,
} from './hatch.js';
export { PAPER_THEME, LIGHT_THEME, DARK_THEME, contrastRatio, type LadderTheme, type Ink } from './theme.js';
export { ENGLISH, ladderWords, type LadderWords } from './words.js';
