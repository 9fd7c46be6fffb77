import { BarwiseError, type Seconds } from '../../units/index.js';
import { RATE } from './stereo.js';

/** Spoken numbers: `say(1)` to `say(4)` and further, as samples at `RATE`, trimmed to where the voice begins. */
export interface SpokenNumbers {
  say(number: number): Float32Array;
  /**
   * Where in the word its beat is heard: as its vowel sets in, and not at the first hiss of "three" or "four" (Morton, Marcus &
   * Frankish, Psychological Review 1976, on perceptual centres; from memory). Seconds from its beginning.
   */
  beatIn(number: number): Seconds;
}

/** Words a minute; the fastest at which single numbers stay clear. */
const PACE = 240;
const QUIET = 0.02;
const LEVEL = 0.8;
/** A speech synthesiser built for the browser looks for the command line under this name. */
interface Synthesiser {
  readonly FS: { readFile(path: string): Uint8Array };
}

/**
 * Has numbers spoken by eSpeak NG (a formant synthesiser, GPL-3.0-or-later).
 * @param language BCP 47: `en`, `de`
 * @throws BarwiseError `missing-package` where the package espeak-ng is not installed
 */
export async function speakNumbers(numbers: readonly number[], language: string): Promise<SpokenNumbers> {
  const make = await loadSynthesiser();
  const spoken = new Map<number, Float32Array>();
  for (const number of new Set(numbers)) {
    const wav = '/number.wav';
    const said = await make({
      arguments: ['-v', language, '-s', String(PACE), '-w', wav, String(number)],
      print: () => undefined,
      printErr: () => undefined,
    });
    spoken.set(number, trimmed(said.FS.readFile(wav)));
  }
  const say = (number: number) => spoken.get(number) ?? new Float32Array(0);
  return { say, beatIn: (number) => vowelOnset(say(number)) };
}

type Maker = (options: {
  readonly arguments: readonly string[];
  readonly print: () => void;
  readonly printErr: () => void;
}) => Promise<Synthesiser>;

async function loadSynthesiser(): Promise<Maker> {
  try {
    const name = 'espeak-ng';
    const { default: make } = (await import(name)) as { default: Maker };
    return make;
  } catch (cause) {
    throw new BarwiseError(
      'missing-package',
      'A spoken count needs the package espeak-ng: run npm install espeak-ng.',
      {
        cause,
      },
    );
  }
}

/** The samples of a 16-bit mono WAV file without the silence in front, at `RATE` and an even level. */
function trimmed(bytes: Uint8Array): Float32Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const rate = view.getUint32(24, true);
  const input = new Float32Array(Math.floor((bytes.length - 44) / 2));
  for (let i = 0; i < input.length; i++) input[i] = view.getInt16(44 + 2 * i, true) / 32768;
  const loudest = input.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
  const start = Math.max(
    0,
    input.findIndex((x) => Math.abs(x) > QUIET * loudest),
  );
  const end = input.findLastIndex((x) => Math.abs(x) > QUIET * loudest) + 1;
  const length = Math.floor(((end - start) * RATE) / rate);
  return Float32Array.from({ length }, (_, i) => {
    const at = start + (i * rate) / RATE;
    const whole = Math.floor(at);
    const share = at - whole;
    return (LEVEL * ((1 - share) * input[whole] + share * (input[whole + 1] ?? 0))) / (loudest || 1);
  });
}

/** Half of the window over which the loudness of a voice is taken, in frames: one period of a low voice. */
const HALF_WINDOW = Math.round(0.005 * RATE);

/** Where the loudness of a word first comes to half of its greatest. */
function vowelOnset(word: Float32Array): Seconds {
  const envelope: number[] = [];
  for (let i = 0; i < word.length; i += HALF_WINDOW) {
    const part = word.subarray(Math.max(0, i - HALF_WINDOW), i + HALF_WINDOW);
    envelope.push(Math.sqrt(part.reduce((sum, x) => sum + x * x, 0) / part.length));
  }
  const half = Math.max(...envelope) / 2;
  return (
    (Math.max(
      0,
      envelope.findIndex((level) => level >= half),
    ) *
      HALF_WINDOW) /
    RATE
  );
}
