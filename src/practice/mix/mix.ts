import { BarwiseError } from '../../units/index.js';
import type { Stereo } from '../sound/stereo.js';
import type { Strand } from './graph.js';
import { mixNatively } from './native.js';
import { mixPlainly } from './plain.js';

/** Which mixer is wanted; `auto` takes the native one where it loads. @experimental */
export type MixerChoice = 'auto' | 'native' | 'plain';

/** Strands mixed into one, and a sentence where the slower mixer had to be taken. */
export interface Mixed {
  readonly sound: Stereo;
  readonly notice: string | null;
}

const NATIVE_NEEDS = 'the system library libasound.so.2 (Debian: apt install libasound2)';

/** Mixes strands. @throws BarwiseError `missing-package` when the native mixer was asked for and cannot be loaded */
export async function mix(strands: readonly Strand[], frames: number, choice: MixerChoice = 'auto'): Promise<Mixed> {
  if (choice === 'plain') return { sound: mixPlainly(strands, frames), notice: null };
  try {
    return { sound: await mixNatively(strands, frames), notice: null };
  } catch (cause) {
    if (choice === 'native') {
      throw new BarwiseError('missing-package', `The native mixer needs ${NATIVE_NEEDS}: install it.`, { cause });
    }
    const notice = `The native mixer could not be loaded, a slower one took over; ${NATIVE_NEEDS} brings it.`;
    return { sound: mixPlainly(strands, frames), notice };
  }
}
