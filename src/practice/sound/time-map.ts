import type { Seconds } from '../../units/index.js';

/** Which time of a record sounds at which time of the result: straight between the points, and beyond them as beside them. */
export type TimeMap = readonly { readonly out: Seconds; readonly in: Seconds }[];

/** A record played from a time on at one speed. @param rate 1.02 plays 2 % faster */
export function steadyMap(out: Seconds, at: Seconds, rate: number): TimeMap {
  return [
    { out, in: at },
    { out: out + 1, in: at + rate },
  ];
}

/** The time of the record that sounds at a time of the result. */
export function inTime(map: TimeMap, out: Seconds): Seconds {
  let i = 1;
  while (i < map.length - 1 && map[i].out < out) i++;
  const [p, q] = [map[i - 1], map[i]];
  return p.in + ((out - p.out) * (q.in - p.in)) / (q.out - p.out);
}

/** The same map, later by so much. */
export function delayed(map: TimeMap, by: Seconds): TimeMap {
  return map.map((point) => ({ out: point.out + by, in: point.in }));
}

/** The straight line nearest to the points, by least squares. */
export function fittedMap(points: TimeMap): TimeMap {
  const n = points.length;
  const meanOut = points.reduce((sum, p) => sum + p.out, 0) / n;
  const meanIn = points.reduce((sum, p) => sum + p.in, 0) / n;
  let [over, under] = [0, 0];
  for (const p of points) {
    over += (p.out - meanOut) * (p.in - meanIn);
    under += (p.out - meanOut) ** 2;
  }
  return steadyMap(meanOut, meanIn, under > 0 ? over / under : 1);
}
