import { choose, type State } from './state.js';
import { phraseOf } from '../view.js';
import { positionAt } from '../position.js';

/** Steps of speed by key, in per cent. */
const SPEED_STEP = 1;
const [SLOWEST, FASTEST] = [50, 150];

/** Playing: the audio element under the rules of the page. */
export interface Transport {
  readonly audio: HTMLAudioElement;
  /** Seconds into the track. */
  now(): number;
  toggle(): void;
  jump(seconds: number): void;
  jumpToPhrase(number: number): void;
  /** −1: to the phrase one before; 1: to the next. */
  stepPhrase(by: -1 | 1): void;
  stepBar(by: -1 | 1): void;
  toggleLoop(): void;
  /** Keeps a loop in its phrase; called all the time while playing. */
  hold(): void;
  setSpeed(percent: number): void;
  changeSpeed(by: -1 | 1): void;
  setVolume(percent: number): void;
  load(track: number, reading?: number): void;
  /** Whether going from one time to another was a loop starting over. */
  hasLooped(from: number, to: number): boolean;
}

/** `changed` is called when something other than time has changed. */
export function createTransport(state: State, audio: HTMLAudioElement, changed: () => void): Transport {
  let speed = 100;
  /** The stretch of the track that the sound holds: all of it, or an excerpt. */
  const sound = () => state.data.tracks[state.track].excerpt ?? { from: 0, to: Infinity };
  const now = () => audio.currentTime + sound().from;
  const seek = (seconds: number) => {
    const { from } = sound();
    const end = Number.isFinite(audio.duration) ? audio.duration : Infinity;
    audio.currentTime = Math.min(Math.max(seconds - from, 0), end);
  };
  audio.preservesPitch = true;
  const transport: Transport = {
    audio,
    now,
    toggle() {
      if (!audio.paused) return audio.pause();
      // The element's own error event says what is wrong; a rejected play() says the same a second time.
      audio.play().catch(() => undefined);
    },
    jump(seconds) {
      seek(seconds);
      if (state.loop !== null) state.loop = positionAt(state.view, now())?.bar.phrase ?? null;
      changed();
    },
    jumpToPhrase(number) {
      const phrase = phraseOf(state.view, number);
      if (phrase) transport.jump(phrase.start);
    },
    stepPhrase(by) {
      const starts = state.view.analysis.phrases.map((p) => p.start);
      transport.jump(step(starts, now(), by));
    },
    stepBar: (by) => transport.jump(step(state.view.barStarts, now(), by)),
    toggleLoop() {
      const here = positionAt(state.view, now())?.bar.phrase ?? state.view.analysis.phrases[0]?.number;
      state.loop = state.loop === null ? (here ?? null) : null;
      changed();
    },
    hold() {
      const phrase = state.loop === null ? undefined : phraseOf(state.view, state.loop);
      if (!phrase) return;
      const over = now() - phrase.end;
      // What has been played too far is left out at the start, so that the beat goes on.
      if (over >= 0) seek(phrase.start + Math.min(over, 0.25));
    },
    setSpeed(percent) {
      speed = Math.min(Math.max(percent, SLOWEST), FASTEST);
      audio.playbackRate = speed / 100;
      changed();
    },
    changeSpeed: (by) => transport.setSpeed(Math.round(speed) + by * SPEED_STEP),
    setVolume(percent) {
      audio.volume = Math.min(Math.max(percent, 0), 100) / 100;
      changed();
    },
    load(track, reading) {
      const other = track !== state.track || !audio.hasAttribute('src');
      const playing = !audio.paused;
      choose(state, track, reading);
      if (other) {
        audio.src = state.data.tracks[track].audio;
        audio.playbackRate = speed / 100;
        if (playing) audio.play().catch(() => undefined);
      }
      changed();
    },
    hasLooped(from, to) {
      const phrase = state.loop === null ? undefined : phraseOf(state.view, state.loop);
      return phrase !== undefined && Math.abs(from - phrase.end) < 0.3 && Math.abs(to - phrase.start) < 0.6;
    },
  };
  return transport;
}

/** The start before or after a time; going back within half a second of a start goes to the one before it. */
function step(starts: readonly number[], time: number, by: -1 | 1): number {
  const found = by > 0 ? starts.find((s) => s > time + 0.02) : starts.filter((s) => s < time - 0.5).at(-1);
  return found ?? (by > 0 ? time : (starts[0] ?? 0));
}
