export { explain, type ExplainContext } from './explain.js';
export { changeWords, onTheOne, type LayerChange } from './happenings.js';
export { doubtWord, keyName, tempoNumber, tempoReading, withDoubt } from './doubt.js';
export { LANGUAGES, wordsOf, type Language } from './languages.js';
export type { Filler, LengthFacts, Words } from './words.js';
