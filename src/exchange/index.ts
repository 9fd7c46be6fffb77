export { readJams, type Jams, type JamsAnnotation, type JamsObservation } from './jams/read.js';
export {
  jamsBeats,
  jamsFirstOne,
  jamsKey,
  jamsPhrases,
  jamsSegments,
  jamsTempo,
  type JamsBeats,
  type JamsSegment,
} from './jams/namespaces.js';
export { toJams } from './jams/write.js';
export { agreementWith, type Agreement, type CountAgreement } from './foreign/agreement.js';
export {
  correctionsOfCount,
  TAKEABLE,
  type ForeignCorrections,
  type NotTaken,
  type Takeable,
} from './foreign/corrections.js';
export { countOfJams, countOfMidi, shifted, type ForeignCount } from './foreign/count.js';
export { readForeignCount } from './foreign/read.js';
export { readMidi, type MidiCount } from './midi/read.js';
export { DIVISION as MIDI_DIVISION, toMidi, type MidiOptions } from './midi/write.js';
export { TABLES, toRows, type Cell, type Row, type TableName } from './tables/rows.js';
export { plainText, toCsv, toJsonLines } from './tables/text.js';
