import { text, viewOf } from '../bytes.js';

/** What the header packets of a Vorbis stream say about the packets after them. */
export interface VorbisSetup {
  readonly sampleRate: number;
  readonly channels: number;
  /** Block size of a packet by its first byte; `null` for a packet that is no audio. */
  blockSize(firstByte: number): number | null;
}

/** Reads the first header packet (Vorbis I specification, 4.2.2); `null` when it is none. */
export function readIdentification(packet: Uint8Array) {
  if (packet.length < 30 || packet[0] !== 1 || text(packet, 1, 6) !== 'vorbis') return null;
  return {
    channels: packet[11],
    sampleRate: viewOf(packet).getUint32(12, true),
    blocks: [1 << (packet[28] & 15), 1 << (packet[28] >> 4)] as const,
  };
}

/** Mode entry: block flag, window type (0), transform type (0), mapping. */
const MODE_BITS = 1 + 16 + 16 + 8;

/**
 * Tells block sizes from the header packets. The modes stand at the end of the setup packet (4.2.4), in entries whose
 * middle is zero; they are read backwards from the framing bit, which saves decoding the code books before them.
 * @returns `null` when the packets are no Vorbis headers
 */
export function readSetup(identification: Uint8Array, setup: Uint8Array): VorbisSetup | null {
  const id = readIdentification(identification);
  if (!id || setup[0] !== 5 || text(setup, 1, 6) !== 'vorbis') return null;
  const bit = (at: number) => (setup[at >> 3] >> (at & 7)) & 1;
  const number = (at: number, width: number) => {
    let value = 0;
    for (let k = width - 1; k >= 0; k--) value = value * 2 + bit(at + k);
    return value;
  };
  let end = setup.length * 8 - 1;
  while (end > 56 && !bit(end)) end--;
  const flags: number[] = [];
  let modes: number[] = [];
  for (let at = end - MODE_BITS; at >= 56 + 6 && flags.length < 64; at -= MODE_BITS) {
    if (number(at + 1, 32) !== 0 || number(at + 33, 8) > 63) break;
    flags.unshift(bit(at));
    if (number(at - 6, 6) === flags.length - 1) modes = [...flags];
  }
  if (modes.length === 0) return null;
  const width = 32 - Math.clz32(modes.length - 1);
  return {
    sampleRate: id.sampleRate,
    channels: id.channels,
    blockSize(firstByte) {
      if (firstByte & 1) return null;
      const mode = (firstByte >> 1) & ((1 << width) - 1);
      return mode < modes.length ? id.blocks[modes[mode]] : null;
    },
  };
}
