import { ownsKey } from '../owns-key.js';

/** What the keys of a drill do. */
export interface DrillKeys {
  play(): void;
  stop(): void;
  next(): void;
  choose(index: number): void;
  /** @param instant of the press, by `performance.now()` */
  tap(instant: number): void;
  changeVolume(by: number): void;
}

/** Makes a drill playable by keyboard alone. A key that the focused control needs for itself stays its own. */
export function listenToDrillKeys(keys: DrillKeys): void {
  const table: Readonly<Record<string, () => void>> = {
    ' ': () => keys.play(),
    Escape: () => keys.stop(),
    Enter: () => keys.next(),
    ArrowUp: () => keys.changeVolume(0.05),
    ArrowDown: () => keys.changeVolume(-0.05),
  };
  document.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey || ownsKey(event)) return;
    if (event.key.toLowerCase() === 'n') {
      event.preventDefault();
      if (!event.repeat) keys.tap(event.timeStamp);
      return;
    }
    const digit = /^[1-9]$/.test(event.key) ? Number(event.key) : 0;
    const action = digit ? () => keys.choose(digit - 1) : table[event.key];
    if (!action || event.repeat) return;
    event.preventDefault();
    action();
  });
}
