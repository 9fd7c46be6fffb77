import type { Frames, Hertz, RunOptions } from '../units/index.js';
import type { ByteRange } from './bytes.js';
import type { AudioSource, AudioWarning } from './source.js';
import type { WarningList } from './warnings.js';

/** Which decoder is to be used: `auto` is the native one where it loads. */
export type DecoderChoice = 'auto' | 'native' | 'wasm';

/** What reading the samples needs to know. */
export interface ReadOptions extends RunOptions {
  readonly decoder: DecoderChoice;
  readonly warnings: WarningList;
  /** Another program for the decoding process than the usual one. */
  readonly worker?: string | undefined;
}

/** A file whose structure is known: what its headers and its pieces say, and how to get at the samples. */
export interface Container {
  readonly codec: string;
  readonly sampleRate: Hertz;
  readonly channels: number;
  /** Frames that will come, after trimming. */
  readonly frames: Frames;
  /** What the audio digest covers, in order: stretches of the file and bytes of our own making. */
  readonly digestParts: readonly (ByteRange | Uint8Array)[];
  readonly warnings: readonly AudioWarning[];
  source(options: ReadOptions): AudioSource;
}
