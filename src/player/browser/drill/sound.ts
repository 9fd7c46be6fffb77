import type { Seconds } from '../../../units/index.js';

/** Plays one sound at a time, by the sample, and tells where it is. */
export interface DrillSound {
  /** Starts a sound from its beginning; `whenOver` comes when it has ended by itself. */
  play(base64: string, whenOver: () => void): Promise<void>;
  stop(): void;
  /** Where what is heard now lies in the sound, at an instant of `performance.now()`; `null` while nothing sounds. */
  heardAt(instant: number): Seconds | null;
  /** Share of the sound that has gone by, 0 to 1. */
  gone(): number;
  readonly isPlaying: boolean;
  /** From 0 to 1: full volume is the level that the sound was made at. */
  volume: number;
}

export function createSound(): DrillSound {
  let context: AudioContext | undefined;
  let gain: GainNode | undefined;
  let volume = 0.4;
  let playing: { readonly node: AudioBufferSourceNode; readonly start: Seconds; readonly length: Seconds } | null =
    null;
  let asked = 0;

  const stop = () => {
    asked++;
    const old = playing;
    playing = null;
    old?.node.stop();
  };
  return {
    async play(base64, whenOver) {
      stop();
      const mine = asked;
      context ??= new AudioContext();
      gain ??= new GainNode(context, { gain: volume });
      gain.connect(context.destination);
      const [buffer] = await Promise.all([context.decodeAudioData(bytesOf(base64)), context.resume()]);
      if (mine !== asked) return;
      const node = new AudioBufferSourceNode(context, { buffer });
      node.connect(gain);
      const start = context.currentTime + 0.05;
      const own = { node, start, length: buffer.duration };
      node.onended = () => {
        if (playing !== own) return;
        playing = null;
        whenOver();
      };
      playing = own;
      node.start(start);
    },
    stop,
    heardAt(instant) {
      if (!context || !playing) return null;
      // What is heard left the context a little ago: the output stamp pairs both clocks where the browser gives one.
      const stamp = context.getOutputTimestamp();
      const time =
        stamp.performanceTime && stamp.contextTime
          ? stamp.contextTime + (instant - stamp.performanceTime) / 1000
          : context.currentTime -
            (context.outputLatency || context.baseLatency || 0) +
            (instant - performance.now()) / 1000;
      return time - playing.start;
    },
    gone: () =>
      context && playing ? Math.min(1, Math.max(0, (context.currentTime - playing.start) / playing.length)) : 0,
    get isPlaying() {
      return playing !== null;
    },
    get volume() {
      return volume;
    },
    set volume(value) {
      volume = Math.min(1, Math.max(0, value));
      if (context && gain) gain.gain.setTargetAtTime(volume, context.currentTime, 0.01);
    },
  };
}

function bytesOf(base64: string): ArrayBuffer {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes.buffer;
}
