/** Remainder that is never negative. */
export function modulo(a: number, m: number): number {
  return ((a % m) + m) % m;
}
