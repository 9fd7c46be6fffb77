export { PAGE_MARK } from './frame.js';
export { renderPage, type PageOptions, type PageTrack } from './page.js';
export { scoreTaps, type TapPass, type TappedOne, type TapScore, type TapTarget } from './taps.js';
export { patternWords, tapPattern, type TapPattern } from './tap-pattern.js';
export { viewOf, type TrackView } from './view.js';
export { tempoCommand } from './command.js';
export { renderDrill } from './drill/index.js';
