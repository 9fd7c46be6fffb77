/** Lengths in order, runs taken together. @example runs([16, 16, 8]) // '2 × 16 + 8' */
export function runs(lengths: readonly number[]): string {
  const out: { length: number; times: number }[] = [];
  for (const length of lengths) {
    const last = out.at(-1);
    if (last?.length === length) last.times++;
    else out.push({ length, times: 1 });
  }
  return out.map(({ length, times }) => (times > 1 ? `${times} × ${length}` : `${length}`)).join(' + ');
}
