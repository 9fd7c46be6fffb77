/** Correlation below which the channels are taken for one signal and its mirror image; real stereo hardly falls below −0.5. */
const MIRRORED = -0.9;
/** Energy of a stretch that is worth judging: −60 dB below full scale a sample, over half a second at 44.1 kHz. */
const ENOUGH = 1e-6 * 22_050;

/** Adds the energies of two channels and the sum of their products to three sums. */
export type AddEnergies = (left: Float32Array, right: Float32Array, sums: Float64Array) => void;

/** Tells whether the second channel of a recording is the first turned upside down, and turns it back. */
export interface Polarity {
  /**
   * The second channel as it should be: itself, or its mirror image in an array that is used again.
   * @param left, right blocks of the recording in order, equally long
   */
  right(left: Float32Array, right: Float32Array): Float32Array;
  /** Whether it was turned. */
  readonly inverted: boolean;
}

/**
 * Starts judging a recording. Where one channel is the other upside down (a cable soldered the wrong way, an effect),
 * the middle of both is silence: on one loudspeaker, and to whoever listens to the sum, the music is gone. The judgement
 * falls on the first stretch with sound in it and then holds, so that the signal has no break.
 * @param addEnergies may be compiled: the plain loop costs more to make quick than to run once
 */
export function createPolarity(addEnergies: AddEnergies = addPlainly): Polarity {
  let judged = false;
  let inverted = false;
  /** Energies of left and right, and the sum of their products. */
  const sums = new Float64Array(3);
  let turned = new Float32Array(0);
  return {
    get inverted() {
      return inverted;
    },
    right(left, right) {
      if (left === right) return right;
      if (!judged) {
        addEnergies(left, right, sums);
        const [leftEnergy, rightEnergy, product] = sums;
        judged = !(leftEnergy + rightEnergy < ENOUGH);
        inverted = judged && product < MIRRORED * Math.sqrt(leftEnergy * rightEnergy);
      }
      if (!inverted) return right;
      if (turned.length < right.length) turned = new Float32Array(right.length);
      for (let i = 0; i < right.length; i++) turned[i] = -right[i];
      return turned.subarray(0, right.length);
    },
  };
}

function addPlainly(left: Float32Array, right: Float32Array, sums: Float64Array): void {
  let l = sums[0];
  let r = sums[1];
  let product = sums[2];
  for (let i = 0; i < left.length; i++) {
    l += left[i] * left[i];
    r += right[i] * right[i];
    product += left[i] * right[i];
  }
  sums[0] = l;
  sums[1] = r;
  sums[2] = product;
}
