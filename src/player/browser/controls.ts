import { byId, setText } from './dom.js';
import { listenToKeys } from './keys.js';
import type { Practice } from './practice.js';
import { titleOf, type State } from './state.js';
import type { Tick } from './tick.js';
import type { Transport } from './transport.js';

/** The buttons and sliders; `refresh` makes them show how things are. */
export interface Controls {
  refresh(): void;
}

export function connectControls(
  state: State,
  transport: Transport,
  tick: Tick,
  practice: Practice,
  open: (track: number) => void,
): Controls {
  const { audio } = transport;
  const [play, loop, tickButton] = [byId('play'), byId('loop'), byId('tick')];
  const [speed, volume] = [byId<HTMLInputElement>('speed'), byId<HTMLInputElement>('volume')];
  const dialog = byId<HTMLDialogElement>('keys');
  const trouble = byId('trouble');

  const refresh = () => {
    play.dataset.playing = `${!audio.paused}`;
    setText(byId('play-word'), audio.paused ? 'Play' : 'Pause');
    loop.setAttribute('aria-pressed', `${state.loop !== null}`);
    setText(loop, state.loop === null ? 'Loop phrase' : `Looping phrase ${state.loop}`);
    tickButton.setAttribute('aria-pressed', `${tick.on}`);
    const percent = Math.round(audio.playbackRate * 1000) / 10;
    speed.value = `${percent}`;
    setText(byId('speed-out'), `${percent} %`);
    volume.value = `${Math.round(audio.volume * 100)}`;
    setText(byId('volume-out'), audio.muted ? 'muted' : `${Math.round(audio.volume * 100)} %`);
  };
  const toggleTick = () => {
    tick.on = !tick.on;
    if (tick.on) tick.start();
    refresh();
  };

  play.addEventListener('click', () => transport.toggle());
  byId('back').addEventListener('click', () => transport.stepPhrase(-1));
  byId('on').addEventListener('click', () => transport.stepPhrase(1));
  loop.addEventListener('click', () => transport.toggleLoop());
  tickButton.addEventListener('click', toggleTick);
  speed.addEventListener('input', () => transport.setSpeed(Number(speed.value)));
  volume.addEventListener('input', () => transport.setVolume(Number(volume.value)));
  byId('keys-open').addEventListener('click', () => dialog.showModal());
  for (const name of ['play', 'pause', 'ended', 'seeked', 'volumechange', 'loadedmetadata'])
    audio.addEventListener(name, refresh);
  audio.addEventListener('ended', () => {
    // The last phrase may reach beyond the end of the file.
    if (state.loop === null) return;
    transport.jumpToPhrase(state.loop);
    transport.toggle();
  });
  audio.addEventListener('loadstart', () => (trouble.hidden = true));
  audio.addEventListener('error', () => {
    setText(
      trouble,
      `${titleOf(state.view)} cannot be played here: the file is not where it was when this page was made, or this browser does not know its format. Its ladder is shown all the same.`,
    );
    trouble.hidden = false;
  });
  listenToKeys({
    transport,
    toggleTick,
    toggleMute: () => {
      audio.muted = !audio.muted;
      refresh();
    },
    stepTrack: (by) => open(Math.min(Math.max(state.track + by, 0), state.data.tracks.length - 1)),
    openKeys: () => dialog.showModal(),
    togglePractice: () => practice.toggle(),
    tap: (late) => practice.tap(late),
  });
  audio.volume = Number(volume.value) / 100;
  return { refresh };
}
