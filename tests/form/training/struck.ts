import { parseMidi } from 'midi-file';
import type { Arrangement, ArrangementTruth } from '../../../src/arranger/index.js';
import { planPhrase } from '../../../src/arranger/phrase.js';
import { struckCues } from '../../../src/form/struck-cues.js';
import type { StepTable } from '../../../src/form/steps.js';
import type { Grid } from '../../../src/rhythm/index.js';
import type { FrontEnd } from '../../../src/signal/index.js';

export interface StruckExample {
  readonly cues: readonly number[];
  readonly right: boolean;
}

/**
 * Bars in which chords or a voice play without drums and bass: struck where the chords are stabs, an arpeggio or a lead,
 * not where they are only held. The first bar of a phrase is left out: a crash may ring on in it.
 */
export function struckExamples(
  arrangement: Arrangement,
  truth: ArrangementTruth,
  frontEnd: FrontEnd,
  grid: Grid,
  steps: StepTable,
): StruckExample[] {
  const plans = arrangement.parts.flatMap((part) => part.phrases.map((p, i) => planPhrase(p, part.function, i === 0)));
  return grid.bars.flatMap(({ start }, b) => {
    const i = truth.phrases.findLastIndex((p) => p.start <= start + 0.01);
    const { has, textures } = plans[i];
    const opens = Math.abs(truth.phrases[i].start - start) < 0.01;
    if (opens || has.kick || has.percussion || has.bass || !(has.harmony || has.voice)) return [];
    const right = has.harmony && textures.some((t) => t !== 'pad');
    const startOf = (time: number) => grid.bars.findIndex((bar) => bar.start > time - 0.01);
    const [first, after] = [startOf(truth.phrases[i].start), startOf(truth.phrases[i + 1]?.start ?? Infinity)];
    return [{ cues: struckCues(frontEnd, grid, steps, b, first, after < 0 ? grid.bars.length : after), right }];
  });
}

/** Channel of the drums in General MIDI, from 0. */
const DRUMS = 9;
/** Strokes that lie within one sixteenth are one: strummed chords, humanised time. */
const PLACES_IN_BEAT = 4;
/** So many places of a bar with a stroke, at most, are chords that are held. */
const HELD_PLACES = 2;

/** A passage without drums and bass is looked at as far as a phrase on either side. */
const AROUND = 8;

/** In how many sixteenths of each bar something but drums is struck. @param midi a Standard MIDI File */
export function struckPlaces(midi: Uint8Array, beatsPerBar: number): number[] {
  const { header, tracks } = parseMidi(midi);
  const bars: Set<number>[] = [];
  for (const track of tracks) {
    let ticks = 0;
    for (const event of track) {
      ticks += event.deltaTime;
      if (event.type !== 'noteOn' || event.velocity === 0 || event.channel === DRUMS) continue;
      const place = Math.round((PLACES_IN_BEAT * ticks) / header.ticksPerBeat!);
      (bars[Math.floor(place / (PLACES_IN_BEAT * beatsPerBar))] ??= new Set()).add(place);
    }
  }
  return Array.from(bars, (places) => places?.size ?? 0);
}

/**
 * Bars of a played piece in which neither drums nor bass play but something does: struck where something is struck in as many
 * sixteenths as there are beats, held where in two at most; what lies between is left out.
 * @param places from bar 0 of the grid on
 * @param plays whether drums or bass play in a bar
 */
export function playedStruckExamples(
  places: readonly (number | null)[],
  plays: (bar: number) => boolean,
  frontEnd: FrontEnd,
  grid: Grid,
  steps: StepTable,
): StruckExample[] {
  return grid.bars.flatMap((_, b) => {
    const count = places[b] ?? 0; // what is not known is no example
    const right = count >= grid.metre.beatsPerBar;
    // Where the bar before is driven, a cymbal may ring on.
    if (b === 0 || plays(b) || plays(b - 1) || !(right || (count > 0 && count <= HELD_PLACES))) return [];
    let [first, last] = [b, b + 1];
    while (first > 0 && b - first < AROUND && !plays(first - 1)) first--;
    while (last < grid.bars.length && last - b < AROUND && !plays(last)) last++;
    return [{ cues: struckCues(frontEnd, grid, steps, b, first, last), right }];
  });
}
