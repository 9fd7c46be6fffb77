/** Printed pieces: `barwise/reports`. */
export { printCards, CARD_FORMATS, type CardFormat, type CardOptions, type PrintResult } from './card.js';
export type { PrintWarning } from './card/warnings.js';
export type { PieceTarget } from './layout/output.js';
