/** Numbers in 0…1, the same for the same seed. */
export type Random = () => number;

/** Integers on which programs that trust a header come to grief. */
const AWKWARD = [0, 1, 2, 0x7f, 0x80, 0xff, 0x7fff, 0x8000, 0xffff, 0x7fffffff, 0x80000000, 0xffffffff];

/** Headers lie in the first bytes, and that is where most damage is worth doing. */
const HEADER_BYTES = 256;

/**
 * A damaged copy: one to four changes of a kind drawn at random – bytes, bits, awkward integers, stretches cut out,
 * doubled, blanked, spliced in from another file – and now and then cut off at the end.
 */
export function mutate(bytes: Uint8Array, random: Random, others: readonly Uint8Array[]): Uint8Array {
  const upTo = (n: number) => Math.floor(random() * n);
  let out = Buffer.from(bytes);
  const place = () => upTo(random() < 0.6 ? Math.min(HEADER_BYTES, out.length) : out.length);
  for (let changes = 1 + upTo(4); changes > 0 && out.length > 0; changes--) {
    const at = place();
    switch (upTo(7)) {
      case 0:
        for (let i = 1 + upTo(16); i > 0; i--) out[place()] = upTo(256);
        break;
      case 1:
        out[at] ^= 1 << upTo(8);
        break;
      case 2:
        awkward(out, at, AWKWARD[upTo(AWKWARD.length)], random);
        break;
      case 3:
        out = Buffer.concat([out.subarray(0, at), out.subarray(at + 1 + upTo(4000))]);
        break;
      case 4: {
        const stretch = out.subarray(at, at + 1 + upTo(2000));
        out = Buffer.concat([out.subarray(0, at), stretch, out.subarray(at)]);
        break;
      }
      case 5:
        out.fill(random() < 0.5 ? 0 : 0xff, at, Math.min(out.length, at + 1 + upTo(2000)));
        break;
      default: {
        const other = others[upTo(others.length)];
        const from = upTo(other.length);
        out = Buffer.concat([out.subarray(0, at), other.subarray(from, from + 1 + upTo(1000)), out.subarray(at)]);
      }
    }
  }
  return random() < 0.25 ? out.subarray(0, upTo(out.length)) : out;
}

function awkward(bytes: Buffer, at: number, value: number, random: Random): void {
  const width = [1, 2, 4][Math.floor(random() * 3)];
  if (at + width > bytes.length) return;
  const kept = value % 2 ** (8 * width);
  if (random() < 0.5) bytes.writeUIntBE(kept, at, width);
  else bytes.writeUIntLE(kept, at, width);
}
