/** Numbers in [0, 1) by a 32-bit xorshift generator (Marsaglia, "Xorshift RNGs", 2003), from a fixed start. */
export function createDraw(): () => number {
  let state = 0x2545f491;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}
