import type { BarView } from './view.js';

/** From which offset in beats drums and bass are silent in a bar; Infinity when they play to its end. */
export interface Silenced {
  readonly kick: number;
  readonly percussion: number;
  readonly bass: number;
}

const PLAYING: Silenced = { kick: Infinity, percussion: Infinity, bass: Infinity };

/** What the fill of the phrase, or a pick-up of the next one, takes away from this bar. */
export function silencedFrom(view: BarView): Silenced {
  const { beats } = view.bar;
  if (view.barsLeft > 1) {
    const gap = view.habits.gaps && view.bar.phraseBar % 4 === 0 && !view.plan.halfTime;
    return gap ? { ...PLAYING, kick: beats - 1 } : PLAYING;
  }
  if (view.next?.pickUp) {
    const from = Math.max(0, beats - view.next.pickUp.beats);
    return { kick: from, percussion: from, bass: from };
  }
  switch (view.plan.fill) {
    case 'kick-out-beat':
      return { ...PLAYING, kick: beats - 1 };
    case 'kick-out-bar':
      return { ...PLAYING, kick: 0 };
    case 'toms':
      return { ...PLAYING, percussion: beats - 2 };
    case 'stop':
      return { kick: beats - 2, percussion: beats - 2, bass: beats - 2 };
    default:
      return PLAYING;
  }
}

/** Plays what the fill adds in the last bar of a phrase, and a small one in the middle of a long phrase. */
export function playFill(view: BarView): void {
  const { plan, bar, kit, random } = view;
  const { beats } = bar;
  if (view.barsLeft > 1 || view.next?.pickUp) {
    const middle = plan.has.percussion && plan.density > 0.5 && bar.phraseBar % 4 === 0 && view.barsLeft > 1;
    if (middle && random.chance(0.6)) {
      for (const back of [0.75, 0.5, 0.25]) {
        if (random.chance(0.7)) view.hit('drums', kit.snare('ghost'), beats - back, { level: 0.28 });
      }
    }
    return;
  }
  if (plan.fill === 'snare-roll') {
    const length = plan.bars >= 16 ? beats : 2;
    for (let offset = beats - length; offset < beats; offset += 0.25) {
      const way = 1 - (beats - offset) / length;
      view.hit('room', kit.snare('roll'), offset, { level: (0.18 + 0.38 * way) * (offset % 0.5 === 0 ? 1 : 0.8) });
    }
  }
  if (plan.fill === 'toms') {
    const pattern = [0, 0.5, 0.75, 1, 1.25, 1.5, 1.75];
    pattern.forEach((offset, i) => {
      const way = i / (pattern.length - 1);
      view.hit('room', kit.tom(Math.floor(way * 2.99)), beats - 2 + offset, {
        level: 0.4 + 0.1 * way,
        pan: 0.6 * way - 0.3,
      });
    });
  }
}
