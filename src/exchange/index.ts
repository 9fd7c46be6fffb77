export { readJams, type Jams, type JamsAnnotation, type JamsObservation } from './jams/read.js';
export { jamsBeats, jamsKey, jamsSegments, jamsTempo, type JamsBeats, type JamsSegment } from './jams/namespaces.js';
