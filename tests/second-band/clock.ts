import { LAYERS, type Layer } from '../../src/units/index.js';
import { dice } from './dice.js';
import type { Phrase, Plan, Section } from './plan.js';
import { STYLES } from './styles.js';

/** A bar at its place. */
export interface Bar {
  readonly number: number;
  readonly start: number;
  readonly beats: number;
  /** Index of its first beat. */
  readonly firstBeat: number;
  readonly phrase: Phrase;
  readonly section: Section;
  readonly phraseIndex: number;
  readonly sectionIndex: number;
  /** From 1. */
  readonly phraseBar: number;
  readonly has: Readonly<Record<Layer, boolean>>;
}

/** Where everything falls. */
export interface Clock {
  readonly bars: readonly Bar[];
  /** Times of all beats and, last, the end of the last one. */
  readonly beats: readonly number[];
  /** Tempo of each beat as it was meant. */
  readonly tempos: readonly number[];
  /** Time of a place in beats from the start. */
  at(beat: number): number;
}

/** Layers of a phrase that were not there before and start early. */
export function earlyLayers(phrase: Phrase, before: Phrase | undefined): Layer[] {
  return phrase.pickUp && before ? phrase.pickUp.layers.filter((l) => !before.layers.includes(l)) : [];
}

export function clockOf(plan: Plan): Clock {
  const usual = STYLES[plan.style].beatsPerBar;
  const d = dice(plan.seed ^ 0x51ed27);
  const waves = [d.between(18, 36), d.between(50, 110)].map((period) => ({ period, phase: d.between(0, 6.28) }));
  const sway = (beat: number) =>
    plan.drift * waves.reduce((sum, w) => sum + Math.sin((6.2832 * beat) / w.period + w.phase), 0) * 0.6;
  const bars: Bar[] = [];
  const beats: number[] = [];
  const tempos: number[] = [];
  let time = plan.leadIn;
  let bpm = plan.bpm;
  let phraseIndex = -1;
  plan.sections.forEach((section, sectionIndex) => {
    bpm = section.bpm ?? bpm;
    for (const phrase of section.phrases) {
      phraseIndex++;
      for (let phraseBar = 1; phraseBar <= phrase.bars; phraseBar++) {
        const count = phrase.oddBar?.bar === phraseBar ? phrase.oddBar.beats : usual;
        const waits = (layer: Layer) => phrase.late?.layer === layer && phraseBar < phrase.late.bar;
        bars.push({
          number: bars.length + 1,
          start: time,
          beats: count,
          firstBeat: beats.length,
          phrase,
          section,
          phraseIndex,
          sectionIndex,
          phraseBar,
          has: Object.fromEntries(LAYERS.map((l) => [l, phrase.layers.includes(l) && !waits(l)])) as Record<Layer, boolean>, // prettier-ignore
        });
        for (let i = 0; i < count; i++) {
          beats.push(time);
          tempos.push(bpm);
          time += 60 / (bpm * (1 + sway(beats.length)));
        }
      }
    }
  });
  beats.push(time);
  return {
    bars,
    beats,
    tempos,
    at: (beat) => {
      const i = Math.min(Math.max(0, Math.floor(beat)), beats.length - 2);
      return beats[i] + (beat - i) * (beats[i + 1] - beats[i]);
    },
  };
}
