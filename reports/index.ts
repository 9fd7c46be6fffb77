/**
 * Printed pieces: cards, lesson diagrams, worksheets, transition sheets, as PDF or pictures.
 *
 * @module barwise/reports
 */
export { printCards, type CardOptions, type PrintResult } from './card.js';
export { printLesson, PICTURE_FORMATS, type LessonOptions, type PictureFormat } from './lesson.js';
export { printWorksheets, type WorksheetOptions } from './worksheet.js';
export { LEVELS, type Level } from './worksheet/questions.js';
export { printTransitions, type TransitionOptions } from './transition.js';
export { printOrder, type OrderPrintOptions } from './order.js';
export type { Transition } from './transition/rows.js';
export { INDEX_ORDERS, type IndexOrder } from './card/crate-index.js';
export type { PrintWarning } from './card/warnings.js';
export {
  CARD_PAPERS,
  LESSON_PAPERS,
  paperNamed,
  SHEET_PAPERS,
  WORKSHEET_PAPERS,
  type CardPaper,
  type LessonPaper,
  type Paper,
  type SheetPaper,
  type WorksheetPaper,
} from './layout/paper.js';
export type { PieceTarget } from './layout/output.js';
export { SHEET_ORDERS, type SheetOrder } from './layout/sheet.js';
export {
  readTheme,
  styleOf,
  THEME_VERSION,
  themeJsonSchema,
  themeSchema,
  type Style,
  type ThemeData,
} from './theme/index.js';
