import type { AudioWarning } from './source.js';
import type { Frames, Hertz, Seconds } from '../units/index.js';

/** Collects warnings, one of a kind and wording, and hands each on as it comes. */
export interface WarningList {
  add(warning: AudioWarning): void;
  readonly all: readonly AudioWarning[];
}

/** Starts a list. @param onWarning is called once for each warning */
export function collectWarnings(onWarning?: (warning: AudioWarning) => void): WarningList {
  const all: AudioWarning[] = [];
  return {
    all,
    add(warning) {
      if (all.some((w) => w.code === warning.code && w.message === warning.message)) return;
      all.push(warning);
      onWarning?.(warning);
    },
  };
}

/** The file ends before its own headers say it should. @param promised `null` when they only say that more should come */
export function truncated(promised: Seconds | null, found: Seconds): AudioWarning {
  const claim = promised === null ? 'its last page is missing and' : `its headers promise ${seconds(promised)}, but`;
  return {
    code: 'truncated',
    message: `The file ends early: ${claim} only ${seconds(found)} are there; copy it again to have the rest.`,
  };
}

/** Less than this is no loss worth a word: programs differ in how they round and count. */
const SHORT: Seconds = 0.06;

/** The warning that a file is truncated, if it is. @param promised, found frames */
export function endsEarly(promised: Frames, found: Frames, rate: Hertz): readonly AudioWarning[] {
  return (promised - found) / rate > SHORT ? [truncated(promised / rate, found / rate)] : [];
}

/** Pieces of the file could not be decoded. @param replaced how much silence stands in their place */
export function damagedFrames(places: number, first: Seconds, replaced: Seconds): AudioWarning {
  const where =
    places === 1
      ? `One place is damaged, at ${seconds(first)}`
      : `${places} places are damaged, the first at ${seconds(first)}`;
  const what =
    replaced > 0 ? `${seconds(replaced)} of silence stand in for what is lost` : 'nothing had to be replaced';
  return { code: 'damaged-frames', message: `${where}: ${what}; copy the file again.` };
}

/** Samples that are no numbers. */
export function unusualSamples(count: number): AudioWarning {
  return {
    code: 'unusual-samples',
    message: `${count} ${count === 1 ? 'sample is' : 'samples are'} not a finite number and ${count === 1 ? 'was' : 'were'} set to 0: export the file again.`,
  };
}

/** Tops were cut off at full scale. @param share of all samples */
export function clipped(share: number): AudioWarning {
  const percent = share < 0.01 ? (share * 100).toFixed(1) : (share * 100).toFixed(0);
  return {
    code: 'clipped',
    message: `The recording is clipped: ${percent} % of its samples are cut off at full scale, and it sounds harsher than it was meant; get a cleaner copy.`,
  };
}

/** One channel is the other upside down. */
export function invertedChannel(): AudioWarning {
  return {
    code: 'inverted-channel',
    message:
      'One channel is the other upside down: on a mono system this music goes silent; turn one channel over in an audio editor.',
  };
}

/** The slower decoder had to do. @param hint what to install */
export function slowDecoder(hint: string): AudioWarning {
  return { code: 'slow-decoder', message: hint };
}

/** Seconds as a person reads them, to 10 ms. @example seconds(2) // '2.00 s' */
export function seconds(value: Seconds): string {
  return `${value.toFixed(2)} s`;
}
