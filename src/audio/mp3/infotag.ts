import { text, viewOf } from '../bytes.js';
import type { MpegHeader } from './header.js';

/** What the tag in an otherwise silent first frame says about the rest. */
export interface InfoTag {
  /** Frames after this one. */
  readonly frames: number | null;
  /** Samples that the encoder put before the audio; `null` where it does not say. */
  readonly delay: number | null;
  /** Samples after the audio. */
  readonly padding: number | null;
}

/**
 * Reads the "Xing", "Info" or "VBRI" tag of a first frame; `null` where the frame is ordinary audio.
 * Layout as in the sources of the LAME encoder (libmp3lame/VbrTag.c) and "MP3 Info Tag rev 1" (G. Bouvigne et al.).
 */
export function readInfoTag(frame: Uint8Array, header: MpegHeader): InfoTag | null {
  const side = header.version === 1 ? (header.channels === 1 ? 17 : 32) : header.channels === 1 ? 9 : 17;
  // a check word after the header moves the side information, but encoders that write the tag have been seen not to
  for (const at of [4 + side, 4 + side + 2]) {
    const id = text(frame, at);
    if (id === 'Xing' || id === 'Info') return readXing(frame, at);
  }
  if (text(frame, 36) === 'VBRI' && frame.length >= 54) {
    return { frames: viewOf(frame).getUint32(36 + 14, false), delay: null, padding: null };
  }
  return null;
}

function readXing(frame: Uint8Array, start: number): InfoTag {
  const view = viewOf(frame);
  if (frame.length < start + 8) return { frames: null, delay: null, padding: null };
  const flags = view.getUint32(start + 4, false);
  let at = start + 8;
  let frames: number | null = null;
  if (flags & 1 && frame.length >= at + 4) {
    frames = view.getUint32(at, false);
    at += 4;
  }
  if (flags & 2) at += 4;
  if (flags & 4) at += 100;
  if (flags & 8) at += 4;
  const encoder = text(frame, at, 4);
  if (!/^L(AME|avc|avf)/.test(encoder) || frame.length < at + 24) return { frames, delay: null, padding: null };
  const packed = (frame[at + 21] << 16) | (frame[at + 22] << 8) | frame[at + 23];
  const delay = packed >> 12;
  const padding = packed & 0xfff;
  // both zero is what is written by a program that does not know
  return delay === 0 && padding === 0 ? { frames, delay: null, padding: null } : { frames, delay, padding };
}
