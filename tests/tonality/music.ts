/** Sampling rate of everything here. */
export const RATE = 44_100;

/** Triads by scale degree: semitones above the tonic of the root, and the third. */
export const CADENCE = {
  // I IV V I and i iv V i
  major: [[0, 4], [5, 4], [7, 4], [0, 4]], // prettier-ignore
  minor: [[0, 3], [5, 3], [7, 4], [0, 3]], // prettier-ignore
} as const;

/** Adds a decaying tone with five harmonics. `pitch` is a MIDI note number, A4 = 69 = 440 Hz (ISO 16). */
export function addTone(x: Float32Array, start: number, seconds: number, pitch: number, amplitude: number): void {
  const f = 440 * 2 ** ((pitch - 69) / 12);
  const from = Math.round(start * RATE);
  const to = Math.min(x.length, Math.round((start + seconds) * RATE));
  for (let i = from; i < to; i++) {
    const t = (i - from) / RATE;
    const envelope = amplitude * Math.min(1, t * 200) * Math.exp(-1.5 * t) * Math.min(1, (to - i) / 400);
    for (let h = 1; h <= 5; h++) x[i] += (envelope / h ** 1.5) * Math.sin(2 * Math.PI * f * h * t);
  }
}

/** The cadence of a key, a second a chord with a bass note, several times over. */
export function cadence(tonic: number, mode: 'major' | 'minor', times = 3): Float32Array {
  const chords = CADENCE[mode];
  const x = new Float32Array(RATE * chords.length * times);
  for (let c = 0; c < chords.length * times; c++) {
    const [root, third] = chords[c % chords.length];
    const base = 48 + ((tonic + root) % 12);
    addTone(x, c, 1, base - 12, 0.2);
    for (const note of [0, third, 7]) addTone(x, c, 1, base + note, 0.15);
  }
  return x;
}

/** Kick, hats and claps without any pitch but the kick's. */
export function drums(bars: number, bpm = 125): Float32Array {
  const beat = 60 / bpm;
  const x = new Float32Array(Math.round(bars * 4 * beat * RATE));
  const random = seeded(3);
  for (let b = 0; b < bars * 4; b++) {
    burst(
      x,
      b * beat,
      0.25,
      (t) => 0.8 * Math.exp(-18 * t) * Math.sin(2 * Math.PI * (45 * t + 6 * (1 - Math.exp(-30 * t)))),
    );
    burst(x, (b + 0.5) * beat, 0.06, (t) => 0.25 * Math.exp(-60 * t) * random());
    if (b % 2 === 1) burst(x, b * beat, 0.15, (t) => 0.4 * Math.exp(-25 * t) * random());
  }
  return x;
}

/** Seeded white noise between −1 and 1. */
export function seeded(seed: number): () => number {
  let state = seed * 2_654_435_761;
  return () => (state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0) / 2 ** 31 - 1;
}

function burst(x: Float32Array, start: number, seconds: number, wave: (t: number) => number): void {
  const from = Math.round(start * RATE);
  const to = Math.min(x.length, from + Math.round(seconds * RATE));
  for (let i = from; i < to; i++) x[i] += wave((i - from) / RATE);
}
