export { PAGE_MARK, renderPage, type PageOptions, type PageTrack } from './page.js';
export { tempoCommand } from './command.js';
