import type { PageData } from '../data.js';
import { createCountView } from './count.js';
import { drawBreaks } from './breaks.js';
import { connectControls } from './controls.js';
import { drawCrate } from './crate.js';
import { byId, setText } from './dom.js';
import { drawDoubt } from './doubt.js';
import { createLadderView } from './ladder.js';
import { createPractice } from './practice.js';
import { firstState, titleOf } from './state.js';
import { createTick } from './tick.js';
import { drawTrackHead } from './track-head.js';
import { createTransport } from './transport.js';
import { phraseOf } from '../view.js';
import { functionName } from './words.js';

const data = JSON.parse(byId('barwise-data').textContent ?? '') as PageData;
setText(byId('crate-title'), data.title);
if (data.tracks.length > 0) start();

function start(): void {
  const state = firstState(data);
  const tick = createTick();
  const count = createCountView();
  const transport = createTransport(state, byId<HTMLAudioElement>('audio'), () => refresh());
  const jump = (seconds: number) => transport.jump(seconds);
  const ladder = createLadderView(byId('ladder'), jump);
  const practice = createPractice(state, transport);
  const controls = connectControls(state, transport, tick, practice, (track) => open(track));
  let spoken = 0;
  let beat = '';

  /** Everything that hangs on the track or the reading. */
  const open = (track: number, reading?: number) => {
    transport.load(track, reading);
    const { readings } = data.tracks[state.track];
    drawCrate(byId('crate'), state, open);
    drawDoubt(byId('doubt'), readings, state.reading[state.track], (i) => open(state.track, i));
    drawBreaks(byId('breaks'), state.view, jump);
    ladder.draw(state.view);
    practice.reset();
    document.title = `${titleOf(state.view)} · Barwise`;
    beat = '';
    spoken = 0;
    refresh();
  };

  /** What hangs on time alone. The ladder is touched only when the beat is another. */
  const follow = () => {
    const at = count.show(state.view, transport.now());
    const now = at ? `${at.bar.number} ${at.beat}` : '';
    if (now !== beat) ladder.light(at);
    beat = now;
    if (!at || at.bar.phrase === spoken) return;
    const followed = spoken;
    spoken = at.bar.phrase;
    if (transport.audio.paused) return;
    ladder.follow(followed, spoken);
    say(spoken);
  };

  /** Controls and what they change as well. */
  const refresh = () => {
    follow();
    controls.refresh();
    drawTrackHead(byId('track-head'), state.view, transport.audio.playbackRate * 100);
  };

  /** A screen reader hears of phrases, not of beats. */
  const say = (number: number) => {
    const phrase = phraseOf(state.view, number);
    const name = phrase && functionName(state.view, phrase.startBar);
    setText(byId('say'), `Phrase ${number}${name ? `, ${name}` : ''}`);
  };

  const frame = () => {
    if (!transport.audio.paused) {
      practice.follow();
      transport.hold();
      tick.schedule(state.view, transport.audio, transport.now());
      follow();
    }
    requestAnimationFrame(frame);
  };
  document.body.classList.toggle('single', data.tracks.length === 1);
  open(0);
  requestAnimationFrame(frame);
}
