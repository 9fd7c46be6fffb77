import { ownsKey } from './owns-key.js';
import type { Transport } from './transport.js';

/** What the keys do beside what the transport does. */
export interface KeyActions {
  readonly transport: Transport;
  toggleTick(): void;
  toggleMute(): void;
  stepTrack(by: -1 | 1): void;
  openKeys(): void;
  togglePractice(): void;
  /** @param late seconds between the press of the key and now */
  tap(late: number): void;
}

/** Makes the page playable by keyboard alone. Keys that a focused control needs for itself stay its own. */
export function listenToKeys(actions: KeyActions): void {
  const { transport } = actions;
  const table: Readonly<Record<string, () => void>> = {
    ' ': () => transport.toggle(),
    ArrowLeft: () => transport.stepBar(-1),
    ArrowRight: () => transport.stepBar(1),
    ArrowUp: () => transport.stepPhrase(-1),
    ArrowDown: () => transport.stepPhrase(1),
    Home: () => transport.jump(0),
    l: () => transport.toggleLoop(),
    '-': () => transport.changeSpeed(-1),
    '+': () => transport.changeSpeed(1),
    '=': () => transport.changeSpeed(1),
    '0': () => transport.setSpeed(100),
    m: () => actions.toggleMute(),
    t: () => actions.toggleTick(),
    '[': () => actions.stepTrack(-1),
    ']': () => actions.stepTrack(1),
    '?': () => actions.openKeys(),
    p: () => actions.togglePractice(),
  };
  document.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey || event.defaultPrevented) return;
    if (document.querySelector('dialog[open]') || ownsKey(event)) return;
    // A tap is timed from the press, not from when the page gets to it; a key that is held down taps once.
    if (event.key.toLowerCase() === 'n' || event.key === 'Enter') {
      event.preventDefault();
      if (!event.repeat) actions.tap(Math.max(0, performance.now() - event.timeStamp) / 1000);
      return;
    }
    const digit = /^[1-9]$/.test(event.key) ? Number(event.key) : 0;
    const action = digit
      ? () => transport.jumpToPhrase(digit)
      : table[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    if (!action) return;
    event.preventDefault();
    action();
  });
}
