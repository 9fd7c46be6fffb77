import { scaleNote } from './harmony.js';
import type { BarView } from './view.js';

/** Plays the layers that start before the one of the next phrase, in the last bar of this one. */
export function playPickUp(view: BarView): void {
  const pickUp = view.next?.pickUp;
  if (!pickUp || view.barsLeft > 1) return;
  const { bar, kit, arrangement, style, nextChord } = view;
  const from = Math.max(0, bar.beats - pickUp.beats);
  const key = arrangement.key;
  for (let offset = from; offset < bar.beats - 1e-6; offset += 0.5) {
    const left = bar.beats - offset;
    const strong = offset % 1 === 0;
    if (pickUp.layers.includes('bass')) {
      const step = nextChord.degree - 1 - Math.round(left * 2);
      const note = scaleNote(key, step, nextChord.root - 2);
      view.hit('bass', kit.bass(note, view.seconds(0, 0.42)), offset, { level: strong ? 0.62 : 0.52 });
    }
    if (pickUp.layers.includes('harmony')) {
      const note = scaleNote(key, nextChord.degree - 1 - Math.round(left * 2), 74);
      view.hit('lead', kit.lead(note, view.seconds(0, 0.45)), offset, { level: 0.42 });
    }
    if (pickUp.layers.includes('voice') && strong) {
      const note = scaleNote(key, nextChord.degree - 1 + (left > 1 ? 2 : 4), style.voice.centre);
      const shot = kit.syllable({
        note,
        duration: view.seconds(0, 0.8),
        vowel: left > 1 ? 'ah' : 'oh',
        towards: 'eh',
        onset: 'stop',
      });
      view.hit('voice', shot, offset, { level: 1 });
    }
    if (pickUp.layers.includes('percussion')) {
      view.hit('room', kit.snare('roll'), offset, { level: strong ? 0.5 : 0.38 });
    }
    if (pickUp.layers.includes('kick') && strong) view.hit('kick', kit.kick(), offset, { level: 0.72 });
  }
}
