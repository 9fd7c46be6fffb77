/** A bar's phase is judged from bars no further away than this, so that a reset elsewhere does not blur it. */
const FOLD_REACH = 48;

export function sum(curves: readonly Float64Array[]): Float64Array {
  const out = new Float64Array(curves[0].length);
  for (const curve of curves) addTo(out, curve);
  return out;
}

function addTo(out: Float64Array, curve: Float64Array): void {
  for (let b = 0; b < out.length; b++) out[b] += curve[b];
}

/** Values of the bar after each; the last one's own. */
export function shifted(curve: Float64Array): Float64Array {
  const out = new Float64Array(curve.length);
  for (let b = 0; b < out.length; b++) out[b] = curve[Math.min(b + 1, out.length - 1)];
  return out;
}

/** Largest value within two bars, the bar itself left out. */
export function beside(curve: Float64Array): Float64Array {
  const out = new Float64Array(curve.length);
  for (let b = 0; b < out.length; b++) {
    let most = 0;
    const last = Math.min(b + 2, out.length - 1);
    for (let k = Math.max(b - 2, 0); k <= last; k++) if (k !== b && curve[k] > most) most = curve[k];
    out[b] = most;
  }
  return out;
}

/** How far each value stands above those beside it. */
export function height(curve: Float64Array): Float64Array {
  const out = beside(curve);
  for (let b = 0; b < out.length; b++) out[b] = curve[b] - out[b];
  return out;
}

/** Share of the track's bars with a smaller value. */
export function ranks(curve: Float64Array): Float64Array {
  const order = Array.from(curve.keys()).sort((a, b) => curve[a] - curve[b]);
  const out = new Float64Array(curve.length);
  for (let i = 0; i < order.length; i++) out[order[i]] = i / Math.max(curve.length - 1, 1);
  return out;
}

/** Mean of the `span` bars from b less that of the `span` bars before; fewer at the ends. */
export function change(curve: Float64Array, span: number): Float64Array {
  const out = new Float64Array(curve.length);
  for (let b = 1; b < out.length; b++) {
    const s = Math.min(span, b, out.length - b);
    let d = 0;
    for (let k = 0; k < s; k++) d += curve[b + k] - curve[b - 1 - k];
    out[b] = d / s;
  }
  return out;
}

export function absolute(curve: Float64Array): Float64Array {
  const out = new Float64Array(curve.length);
  for (let b = 0; b < out.length; b++) out[b] = Math.abs(curve[b]);
  return out;
}

/** Rise over the four bars before b. */
export function ramp(curve: Float64Array): Float64Array {
  const out = new Float64Array(curve.length);
  for (let b = 4; b < out.length; b++) out[b] = curve[b - 1] + curve[b - 2] - curve[b - 3] - curve[b - 4];
  return out;
}

/** Mean of the curve on the bars around b of the same remainder modulo m, b left out, over the mean of all of them. */
export function fold(curve: Float64Array, m: number): Float64Array {
  const mean = curve.reduce((a, v) => a + v, 0) / Math.max(curve.length, 1) || 1;
  const out = new Float64Array(curve.length);
  for (let b = 0; b < out.length; b++) out[b] = foldedAt(curve, b, m, mean);
  return out;
}

function foldedAt(curve: Float64Array, b: number, m: number, mean: number): number {
  let s = 0;
  let k = 0;
  for (let d = m; d <= FOLD_REACH; d += m) {
    if (b - d > 0) {
      s += curve[b - d];
      k++;
    }
    if (b + d < curve.length) {
      s += curve[b + d];
      k++;
    }
  }
  return k > 0 ? s / k / mean : 1;
}
