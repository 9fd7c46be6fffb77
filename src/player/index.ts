export { PAGE_MARK, renderPage, type PageOptions, type PageTrack } from './page.js';
export { doubtQuestion, isOctave, spokenTempo, tempoDoubt, type TempoReading } from './doubt.js';
export { tempoCommand } from './command.js';
