/**
 * Numbers in [0, 1) by a 32-bit xorshift generator (Marsaglia, "Xorshift RNGs", 2003).
 * @param start any 32 bits but 0
 */
export function createDraw(start = 0x2545f491): () => number {
  let state = start;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}
