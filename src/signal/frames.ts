/**
 * Cuts a stream of samples into overlapping frames whose centres lie at 0, hop, 2·hop, …; the signal is taken as zero
 * before its start and after its end.
 */
export interface Framer {
  push(samples: Float32Array): void;
  /** Emits the frames that still have their centre inside the signal. */
  finish(): void;
}

export function createFramer(window: number, hop: number, onFrame: (frame: Float32Array) => void): Framer {
  const half = window / 2;
  const buffer = new Float32Array(window + 65_536);
  let filled = half; // the zeros before the start
  let total = 0;
  let emitted = 0;

  function drain(): void {
    let at = 0;
    while (at + window <= filled) {
      onFrame(buffer.subarray(at, at + window));
      emitted++;
      at += hop;
    }
    buffer.copyWithin(0, at, filled);
    filled -= at;
  }

  return {
    push(samples) {
      total += samples.length;
      for (let from = 0; from < samples.length;) {
        const n = Math.min(samples.length - from, buffer.length - filled);
        buffer.set(samples.subarray(from, from + n), filled);
        filled += n;
        from += n;
        if (filled >= window) drain();
      }
    },
    finish() {
      const wanted = Math.floor(total / hop) + 1;
      while (emitted < wanted) {
        const n = Math.min(hop, buffer.length - filled);
        buffer.fill(0, filled, filled + n);
        filled += n;
        if (filled >= window) drain();
      }
    },
  };
}
