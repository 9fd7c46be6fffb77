export { explain, explainStored, type ExplainContext, type StoredContext } from './explain.js';
export { changeWords, onTheOne, type LayerChange } from './happenings.js';
export { doubtWord, isDoubtful, isSure, keyName, withDoubt } from './doubt.js';
export {
  doubtQuestion,
  isOctave,
  spokenTempo,
  tempoDoubt,
  tempoNumber,
  tempoReading,
  type TempoQuestion,
  type TempoReading,
} from './tempo-doubt.js';
export { runs } from './runs.js';
export { remark, type StoredIrregularity } from './remark.js';
export { GERMAN_ARTICLES } from './german/articles.js';
export { LANGUAGES, wordsOf, type Language, type Speech } from './languages.js';
export type { Words } from './words.js';
export type { Filler, IrregularitySentences, LengthFacts } from './sentences.js';
export type { RemarkWords } from './remark-words.js';
export type { CardWords } from './card-words.js';
export type { ChangedSubject, DoubtSubject, StoryWords } from './story-words.js';
export * from './match/index.js';
