import type { TrackView } from '../view.js';
import { lastAtOrBefore } from '../position.js';

/** How far ahead ticks are handed to the sound card, so that a busy page cannot delay them. */
const AHEAD = 0.15;
/** Peak of the loudest tick: −14 dB below full level, whatever the volume says. */
const LIMIT = 0.2;
const LENGTH = 0.035;

/** A short tick on every beat: higher on bar one, highest on group one. It has its own, limited level. */
export interface Tick {
  on: boolean;
  /** Hands over the ticks of the next moment; called all the time while playing. */
  schedule(view: TrackView, audio: HTMLAudioElement, now: number): void;
  start(): void;
}

export function createTick(): Tick {
  let context: AudioContext | undefined;
  let lastBeat = -1;
  const tick: Tick = {
    on: false,
    start() {
      context ??= new AudioContext();
      void context.resume();
    },
    schedule(view, audio, now) {
      if (!tick.on || !context || audio.paused || audio.seeking) {
        lastBeat = -1;
        return;
      }
      // The clock of the player tells what is heard; what the context is given is heard that much later.
      const lag = (context.outputLatency || 0) + (context.baseLatency || 0);
      const reach = now + (AHEAD + lag) * audio.playbackRate;
      const here = lastAtOrBefore(view.beats, now);
      if (lastBeat < here || lastBeat > here + 8) lastBeat = here;
      for (let i = lastBeat + 1; i < view.beats.length && view.beats[i] <= reach; i++) {
        const wait = (view.beats[i] - now) / audio.playbackRate - lag;
        sound(context, context.currentTime + Math.max(wait, 0), pitchOf(view, i), audio.muted ? 0 : audio.volume);
        lastBeat = i;
      }
    },
  };
  return tick;
}

function pitchOf(view: TrackView, beat: number): number {
  const bar = view.bars[lastAtOrBefore(view.barStarts, view.beats[beat] + 0.002)];
  if (bar?.firstBeat !== beat || bar.firstCount !== 1) return 880;
  return bar.groupBar === 1 ? 1760 : 1320;
}

function sound(context: AudioContext, at: number, pitch: number, volume: number): void {
  const tone = new OscillatorNode(context, { type: 'sine', frequency: pitch });
  const level = new GainNode(context, { gain: 0 });
  level.gain.setValueAtTime(LIMIT * Math.min(volume, 1), at);
  level.gain.exponentialRampToValueAtTime(1e-4, at + LENGTH);
  tone.connect(level).connect(context.destination);
  tone.start(at);
  tone.stop(at + LENGTH);
}
