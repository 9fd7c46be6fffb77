/** A stroke: offset in beats from the start of the bar, and level. */
export type Step = readonly [offset: number, level: number];

/** Steps every `every` beats from `first` on, within `beats`. */
export function steps(beats: number, first: number, every: number, level: number): Step[] {
  const list: Step[] = [];
  for (let offset = first; offset < beats - 1e-6; offset += every) list.push([offset, level]);
  return list;
}
