import { calibrated, CALIBRATIONS, type Calibration } from '../learned/index.js';
import type { FrontEnd } from '../signal/index.js';
import type { Grid } from '../rhythm/index.js';
import { BARS_IN_GROUP, LAYERS, throwIfAborted, type Fraction, type RunOptions } from '../units/index.js';
import { barConstraints, isFree } from './bar-constraints.js';
import { barFeatures } from './bars.js';
import { beatlessPassages, struckJudge } from './beatless.js';
import { boundaryCues } from './boundary-cues.js';
import { boundaryScores } from './boundary-scores.js';
import { CHORD_REACH, chordReturns } from './chord-returns.js';
import { bestReading, decode, logEvidence, type Reading } from './decode.js';
import type { BarConstraints } from './lattice.js';
import { layerEvents, layerSwitches } from './events.js';
import type { Form, FormConstraints, Irregularity, LayerBars, Phrase, Section } from './form.js';
import { functionCues } from './function-cues.js';
import { changeCues, functionChain, phraseFunctions } from './functions.js';
import { halfTimePassages } from './half-time.js';
import { lengthIrregularities, phraseLengths, regularPhrases } from './irregularities.js';
import { nearestBar } from './nearest-bar.js';
import { withOddSections } from './odd-sections.js';
import { findPickUps, pickUpIrregularities, withPickUps } from './pick-ups.js';
import { layerCues } from './layer-cues.js';
import { layerWords, withToldBeats } from './layer-word.js';
import { layerTrack, layerTracks, settleLayer, settleLayers, type LayerTrack } from './layers.js';
import { PHRASE_BARS } from './lengths.js';
import { sectionLetters } from './letters.js';
import { followsPlan, planCues } from './plan.js';
import { sectionScores } from './section-scores.js';
import { bandedSimilarity } from './similarity.js';
import { stepTable } from './steps.js';
import { musicBars } from './tail.js';
import { withTrack } from './track-cues.js';
import {
  BOUNDARY_WEIGHTS,
  DRIVING_BASS_WEIGHTS,
  FUNCTION_WEIGHTS,
  LAYER_WEIGHTS,
  LENGTH_COSTS,
  PICK_UP_WEIGHTS,
  PLAN_WEIGHTS,
  PRESENCE_WEIGHTS,
  STRUCK_WEIGHTS,
} from './weights/index.js';

/** Presences of a voice between these are no answer. */
const VOICE_DOUBT = [0.25, 0.75] as const;

/** Passages that the grid hears by bars, and the form by phrases: those of the form count. */
const HEARD_IN_PHRASES: readonly Irregularity['kind'][] = ['half-time', 'beatless-passage'];

/**
 * Finds the form of a track on its grid: layers in each bar, phrases that tile sections that tile the track, what each
 * section does, and where the track leaves its own pattern.
 * @param grid with at least one bar; its irregularities are passed on
 * @param constraints a person's word; the model is decoded under it
 * @throws BarwiseError `aborted`
 */
export function findForm(
  frontEnd: FrontEnd,
  grid: Grid,
  constraints: FormConstraints = {},
  options: RunOptions = {},
): Form {
  if (grid.bars.length === 0) return emptyForm(grid);
  const step = (stage: string, done: number) => {
    throwIfAborted(options.signal);
    options.onProgress?.({ stage, done });
  };
  step('bars', 0);
  const steps = stepTable(frontEnd, grid);
  const features = barFeatures(frontEnd, grid, steps);
  step('layers', 0.4);
  const words = layerWords(grid, constraints.events);
  const sounds = layerCues(frontEnd, grid, steps);
  const layers = layerTracks(sounds, LAYER_WEIGHTS, words);
  step('phrases', 0.6);
  const cues = boundaryCues(features, steps, layers);
  const scores = boundaryScores(cues, BOUNDARY_WEIGHTS);
  const word = barConstraints(grid, constraints);
  const bars = Math.max(musicBars(steps), ...[...word.phraseStart, ...word.sectionStart].map((b) => b + 1));
  const alike = bandedSimilarity(features.chroma, grid.bars.length, CHORD_REACH);
  const read = (of: typeof scores, usual: number, under?: BarConstraints) =>
    decode(bars, of, LENGTH_COSTS, usual, under, chordReturns(alike, usual));
  const readings = PHRASE_BARS.map((usual) => read(scores, usual, word));
  const first = bestReading(readings, LENGTH_COSTS);
  step('sections', 0.9);
  const chainOf = (starts: readonly number[]) =>
    functionChain(functionCues(features, layers, starts), changeCues(scores, starts), FUNCTION_WEIGHTS);
  const told = (starts: readonly number[]) => starts.map((b) => fixedFunction(grid, constraints, b));
  const does = phraseFunctions(chainOf(first.phraseStarts), told(first.phraseStarts));
  const plan = followsPlan(planCues(scores.section, first.phraseStarts, does), PLAN_WEIGHTS);
  const informed = sectionScores(scores, first.phraseStarts, does, plan);
  const counted = read(informed, first.usual, word);
  const reading = withOddSections(
    counted,
    bars,
    informed,
    LENGTH_COSTS,
    word,
    features.chroma,
    (b) => grid.bars[b].beats === grid.metre.beatsPerBar,
  );
  const inSection = new Set(reading.sectionStarts);
  const settled = phraseFunctions(
    chainOf(reading.phraseStarts),
    told(reading.phraseStarts),
    reading.phraseStarts.map((b) => !inSection.has(b)),
  );
  const functions = reading.sectionStarts.map((b) => {
    const i = reading.phraseStarts.indexOf(b);
    return { function: settled.functions[i], confidence: settled.confidence[i] };
  });
  const letters = sectionLetters(features, reading.sectionStarts);
  const sections = spans(reading.sectionStarts, grid).map((span, i): Section => ({
    start: span.start,
    end: span.end,
    startBar: span.startBar,
    endBar: span.endBar,
    function: functions[i].function,
    letter: letters[i],
    confidence: asOftenRight(functions[i].confidence * reading.sectionPosterior[span.first], CALIBRATIONS.section),
  }));
  const phrases = phrasesOf(reading, grid);
  // Layers are evidence for and against what a person has said of phrases, so they must not follow it.
  const unsaid = isFree(word) ? reading : read(scores, first.usual);
  const against = withTrack(sounds);
  const course = settleLayers(layerTracks(against, PRESENCE_WEIGHTS), unsaid.phrasePosterior, words);
  const driving = settleLayer(layerTrack('bass', against, DRIVING_BASS_WEIGHTS), unsaid.phrasePosterior, words.bass);
  const pickUps = findPickUps(grid, steps, reading, course, PICK_UP_WEIGHTS);
  const switches = withToldBeats(
    grid,
    withPickUps(grid, steps, layerSwitches(grid, steps, course, unsaid.phraseStarts), pickUps),
    constraints.events ?? [],
  );
  const presence = layerBars(course);
  const irregularities: Irregularity[] = [
    ...grid.irregularities.filter((i) => !HEARD_IN_PHRASES.includes(i.kind)),
    ...halfTimePassages(grid, presence, steps, reading.phraseStarts),
    ...beatlessPassages(
      grid,
      { ...presence, bass: rounded(driving) },
      reading.phraseStarts,
      struckJudge(frontEnd, grid, steps, STRUCK_WEIGHTS),
    ),
    ...lengthIrregularities(grid, steps, reading, sections),
    ...pickUpIrregularities(grid, reading, pickUps),
  ].sort((a, b) => a.time - b.time);
  step('sections', 1);
  return {
    phraseBars: reading.usual,
    groups: groupsOf(reading.phraseStarts, grid.bars.length),
    phrases,
    sections,
    layers: presence,
    events: layerEvents(grid, switches),
    irregularities,
    logEvidence: logEvidence(first, LENGTH_COSTS),
  };
}

function fixedFunction(grid: Grid, { sections }: FormConstraints, bar: number) {
  return sections?.find((s) => nearestBar(grid, s.start) === bar)?.function ?? null;
}

function spans(starts: readonly number[], grid: Grid) {
  return starts.map((first, i) => {
    const last = (starts[i + 1] ?? grid.bars.length) - 1;
    const [a, z] = [grid.bars[first], grid.bars[last]];
    return { first, bars: last - first + 1, start: a.start, end: z.end, startBar: a.number, endBar: z.number };
  });
}

function phrasesOf(reading: Reading, grid: Grid): Phrase[] {
  const all = spans(reading.phraseStarts, grid);
  const regular = regularPhrases(phraseLengths(reading, grid.bars.length));
  return all.map(({ first, bars, ...span }, i) => ({
    number: i + 1,
    ...span,
    bars,
    regular: regular[i],
    confidence: asOftenRight(reading.phrasePosterior[first], CALIBRATIONS.phrase),
  }));
}

/** Groups of four bars, counted anew from every phrase start. */
function groupsOf(phraseStarts: readonly number[], bars: number): { group: number; groupBar: number }[] {
  const starts = new Set(phraseStarts);
  const out: { group: number; groupBar: number }[] = [];
  let group = 0;
  let groupBar = 0;
  for (let b = 0; b < bars; b++) {
    if (starts.has(b) || groupBar === BARS_IN_GROUP) {
      group++;
      groupBar = 0;
    }
    out.push({ group, groupBar: ++groupBar });
  }
  return out;
}

function layerBars(layers: Readonly<Record<(typeof LAYERS)[number], LayerTrack>>): LayerBars {
  const entries = LAYERS.map((layer) => {
    const values = rounded(layers[layer]);
    return [
      layer,
      layer === 'voice' ? values.map((p) => (p > VOICE_DOUBT[0] && p < VOICE_DOUBT[1] ? null : p)) : values,
    ];
  });
  return Object.fromEntries(entries) as LayerBars;
}

function rounded({ presence }: LayerTrack): number[] {
  return Array.from(presence, (p) => Math.round(p * 1000) / 1000);
}

function emptyForm(grid: Grid): Form {
  const none = Object.fromEntries(LAYERS.map((l) => [l, []])) as unknown as LayerBars;
  return {
    phraseBars: 8,
    groups: [],
    phrases: [],
    sections: [],
    layers: none,
    events: [],
    irregularities: grid.irregularities,
    logEvidence: 0,
  };
}

/** A posterior as a confidence that is right as often as it says; what a person has said stays certain. */
function asOftenRight(posterior: number, line: Calibration): Fraction {
  return posterior > 1 - 1e-9 ? 1 : calibrated(posterior, line);
}
