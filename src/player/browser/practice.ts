import { patternWords, tapPattern } from '../tap-pattern.js';
import { scoreTaps, type TapTarget } from '../taps.js';
import { byId, html, setText } from './dom.js';
import type { State } from './state.js';
import { drawTaps } from './tap-drawing.js';
import { errorWords } from './tap-words.js';
import type { Transport } from './transport.js';

/** Tap-along practice: taps are gathered while the music runs, and scored at once. */
export interface Practice {
  /** Starts, or ends and leaves the result. */
  toggle(): void;
  /** A tap. @param late seconds between the press and now */
  tap(late: number): void;
  /** Called all the time while playing. */
  follow(): void;
  /** Another track or reading: what was tapped is of no use any more. */
  reset(): void;
}

interface OpenPass {
  from: number;
  to: number;
  taps: number[];
  follows: boolean;
}

/** A step of the clock longer than this is a jump, in seconds. */
const JUMP = 0.35;

export function createPractice(state: State, transport: Transport): Practice {
  const [start, tapButton, result] = [byId('practice-start'), byId('practice-tap'), byId('practice-result')];
  const cover = byId<HTMLInputElement>('practice-cover');
  const takeDelay = byId('practice-delay');
  let passes: OpenPass[] = [];
  let isOn = false;
  let delay = 0;

  const target = (): TapTarget =>
    document.querySelector<HTMLInputElement>('input[name=practice-target]:checked')?.value === 'group'
      ? 'group'
      : 'phrase';
  const targetName = () => `${target()} one`;

  const showState = () => {
    start.setAttribute('aria-pressed', `${isOn}`);
    setText(byId('practice-start-word'), isOn ? 'End practice' : 'Practise');
    tapButton.toggleAttribute('disabled', !isOn);
    document.body.classList.toggle('covered', isOn && cover.checked);
    setText(byId('practice-what'), targetName());
  };

  const score = () => scoreTaps(state.view, target(), passes, delay);
  const showResult = () => {
    const scored = score();
    const pattern = tapPattern(scored);
    const { beatsPerBar } = state.view.analysis.metre;
    const bias = pattern.bias ?? 0;
    takeDelay.hidden = pattern.right < 3 || Math.abs(bias) < 15;
    setText(takeDelay, `Take ${Math.round(Math.abs(bias))} ms as the delay of this device`);
    takeDelay.dataset.seconds = `${bias / 1000}`;
    result.replaceChildren(
      ...patternWords(pattern, targetName(), beatsPerBar).map((text, i) =>
        html('p', i === 0 ? { class: 'score' } : {}, [text]),
      ),
      ...(scored.ones.length > 0 ? [drawTaps(scored.ones)] : []),
      ...(delay === 0
        ? []
        : [
            html('p', { class: 'quiet' }, [
              `${Math.round(delay * 1000)} ms are taken off as the delay of this device.`,
            ]),
          ]),
    );
  };

  const end = () => {
    isOn = false;
    showState();
    showResult();
  };
  const practice: Practice = {
    toggle() {
      if (isOn) {
        end();
        return;
      }
      passes = [];
      isOn = true;
      result.replaceChildren(html('p', {}, [`Tap on every ${targetName()}.`]));
      takeDelay.hidden = true;
      showState();
      if (transport.audio.paused) transport.toggle();
    },
    tap(late) {
      if (!isOn || transport.audio.paused) return;
      practice.follow();
      const time = transport.now() - late * transport.audio.playbackRate;
      passes.at(-1)?.taps.push(time);
      tapButton.classList.remove('struck');
      void tapButton.offsetWidth;
      tapButton.classList.add('struck');
      const one = score().ones.find((o) => o.tap !== null && Math.abs(o.tap + delay - time) < 1e-6);
      setText(byId('practice-last'), one ? errorWords(one, state.view.analysis.metre.beatsPerBar) : 'heard');
    },
    follow() {
      if (!isOn) return;
      const now = transport.now();
      const last = passes.at(-1);
      if (last && now >= last.to - 0.05 && now - last.to < JUMP) last.to = Math.max(last.to, now);
      else
        passes.push({ from: now, to: now, taps: [], follows: last !== undefined && transport.hasLooped(last.to, now) });
    },
    reset() {
      isOn = false;
      passes = [];
      result.replaceChildren();
      takeDelay.hidden = true;
      setText(byId('practice-last'), '');
      showState();
    },
  };

  start.addEventListener('click', () => practice.toggle());
  tapButton.addEventListener('pointerdown', (event) => {
    event.preventDefault();
    practice.tap(Math.max(0, performance.now() - event.timeStamp) / 1000);
  });
  cover.addEventListener('change', showState);
  for (const input of document.querySelectorAll('input[name=practice-target]'))
    input.addEventListener('change', () => {
      showState();
      if (!isOn && passes.length > 0) showResult();
    });
  takeDelay.addEventListener('click', () => {
    delay += Number(takeDelay.dataset.seconds);
    showResult();
    byId('practice-start').focus();
  });
  transport.audio.addEventListener('ended', () => isOn && state.loop === null && end());
  showState();
  return practice;
}
