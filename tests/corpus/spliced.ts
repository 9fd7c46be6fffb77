import type { FrontEnd } from '../../src/signal/index.js';
import type { CurveSet, Seconds } from '../../src/units/index.js';

/**
 * The music cut as on a tape, without a new front end: before `at`, `seconds` are played once more, or left out where they are
 * negative. Rows are copied, so only those that look over the seam differ from a real cut.
 */
export function spliced(frontEnd: FrontEnd, at: Seconds, seconds: Seconds): FrontEnd {
  const set = (name: 'bands' | 'stereo' | 'fine' | 'chroma') => ({ [name]: splicedRows(frontEnd[name], at, seconds) });
  return {
    ...frontEnd,
    duration: frontEnd.duration + seconds,
    ...set('bands'),
    ...set('stereo'),
    ...set('fine'),
    ...set('chroma'),
  };
}

function splicedRows(set: CurveSet, at: Seconds, seconds: Seconds): CurveSet {
  const { start, rate, columns, values } = set;
  const seam = Math.round((at - start) * rate);
  const rows = Math.round((at + Math.abs(seconds) - start) * rate) - seam;
  const head = values.subarray(0, (seconds < 0 ? seam - rows : seam) * columns);
  const tail = values.subarray((seconds < 0 ? seam : seam - rows) * columns);
  const joined = new Float32Array(head.length + tail.length);
  joined.set(head);
  joined.set(tail, head.length);
  return { ...set, values: joined, rows: joined.length / columns };
}
