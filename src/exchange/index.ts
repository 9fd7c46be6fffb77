export { readJams, type Jams, type JamsAnnotation, type JamsObservation } from './jams/read.js';
export { jamsBeats, jamsKey, jamsSegments, jamsTempo, type JamsBeats, type JamsSegment } from './jams/namespaces.js';
export { toJams } from './jams/write.js';
export { readMidi, type MidiCount } from './midi/read.js';
export { DIVISION as MIDI_DIVISION, toMidi, type MidiOptions } from './midi/write.js';
export { TABLES, toRows, type Cell, type Row, type TableName } from './tables/rows.js';
export { plainText, toCsv, toJsonLines } from './tables/text.js';
