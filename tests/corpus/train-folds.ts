import { createHash } from 'node:crypto';
import {
  fitConditionalLogit,
  fitTemperature,
  logitScore,
  type Fit,
  type LogitWeights,
} from '../../src/learned/index.js';
import { levelChoice, modelOf, phaseChoice, readingScores } from './beat-choices.js';
import { HALVES, type Example, type Examples } from './train-examples.js';

/** A fifth of the makers, drawn by a hash of their name, is never trained on; looks at it are logged in docs/accuracy.md. */
export function isLocked(maker: string): boolean {
  return createHash('sha256').update(`locked/${maker}`).digest()[0] % 5 === 0;
}

/** What is chosen: the phase of the beat at a tempo, which of the tempos is the beat's, which beat of the bar is the one. */
export type ChoiceName = 'phase' | 'level' | 'downbeat';

interface Settings {
  readonly l2: number;
  /** What an arranged track, a plain rhythm and a played style count against a song. */
  readonly arranged: number;
  readonly plain: number;
  readonly played: number;
}

/** L2 penalty of each choice and what counts how much, by makers held out (docs/decisions.md has the trials). */
const SETTINGS: Readonly<Record<ChoiceName, Settings>> = {
  phase: { l2: 3, arranged: 1, plain: 0.1, played: 0.25 },
  level: { l2: 10, arranged: 1, plain: 0.5, played: 0.1 },
  downbeat: { l2: 8, arranged: 0.5, plain: 0.1, played: 0.5 },
};

/** How a choice is fitted, in words. */
export function settingsOf(name: ChoiceName): string {
  const { l2, arranged, plain, played } = SETTINGS[name];
  return `L2 ${l2}; arranged tracks count ${arranged}, plain rhythms ${plain}, played styles ${played}`;
}

/** Fits that the grid rests on. */
export interface GridFits {
  readonly phase: Fit;
  readonly level: Fit;
  readonly downbeat: Fit;
}

/** Fits phase, level and downbeat on examples so that every maker counts as the square root of its number of songs. */
export function fitGrid({ beat, downbeat }: Examples): GridFits {
  const phases = beat.flatMap((e) => phaseChoice(e) ?? []);
  const phase = fitExamples(phases, 'phase');
  const level = fitExamples(
    beat.map((e) => levelChoice(e, phase)),
    'level',
  );
  return { phase, level, downbeat: fitExamples(downbeat, 'downbeat') };
}

function fitExamples(examples: readonly Example[], name: ChoiceName): Fit {
  const { l2, arranged, plain, played } = SETTINGS[name];
  const counts: Readonly<Record<string, number>> = { arranged, plain, played };
  const weightOf = (e: Example) => counts[e.group] ?? 1;
  // What counts for nothing must not move the means either.
  const counted = examples.filter((e) => weightOf(e) > 0);
  const perMaker = new Map<string, number>();
  for (const e of examples) perMaker.set(e.maker, (perMaker.get(e.maker) ?? 0) + 1);
  return fitConditionalLogit(
    counted.map((e) => ({
      cues: e.cues,
      right: e.right,
      weight: weightOf(e) / Math.sqrt(perMaker.get(e.maker)! / 3),
    })),
    { l2 },
  );
}

/** What was chosen for an example by weights that had not seen its fold. */
export interface Held {
  readonly example: Example;
  readonly scores: readonly number[];
}

/** Held-out scores of every choice, phase among readings of the right tempo. */
export type HeldChoices = Readonly<Record<ChoiceName, readonly Held[]>>;

/** Scores examples by fits that have not seen them. */
export function score({ beat, downbeat }: Examples, fits: GridFits): HeldChoices {
  const by = (fit: Fit, examples: readonly Example[]) => {
    const model = modelOf(fit);
    return examples.map((example) => ({ example, scores: example.cues.map((c) => logitScore(model, c)) }));
  };
  return {
    phase: by(
      fits.phase,
      beat.flatMap((e) => phaseChoice(e) ?? []),
    ),
    level: by(
      fits.level,
      beat.map((e) => levelChoice(e, fits.phase)).filter((e) => e.right.includes(true)),
    ),
    downbeat: by(fits.downbeat, downbeat),
  };
}

/** The choice of the whole reading: tempo and phase together. */
export function scoreReadings(beat: readonly Example[], fits: GridFits, temperatures: Temperatures): Held[] {
  const phase = modelOf(fits.phase, temperatures.phase);
  const level = modelOf(fits.level, temperatures.level);
  return beat.map((example) => ({ example, scores: readingScores(example, phase, level) }));
}

/** Temperature of each choice. */
export type Temperatures = Readonly<Record<ChoiceName, number>>;

export function temperaturesOf(held: HeldChoices): Temperatures {
  const of = (name: ChoiceName) =>
    fitTemperature(held[name].map(({ example, scores }) => ({ scores, right: example.right })));
  return { phase: of('phase'), level: of('level'), downbeat: of('downbeat') };
}

/** A fit for each fold of the songs, by the fold's name; fitted when first asked for. */
export function foldFits(songs: Examples, others: Examples, by: 'maker' | 'source'): (fold: string) => GridFits {
  const kept = new Map<string, GridFits>();
  return (fold) => {
    const without = (name: keyof Examples) => [
      ...songs[name].filter((e) => !isLocked(e.maker) && e[by] !== fold),
      ...others[name].filter((e) => !isLocked(e.maker)),
    ];
    const fits = kept.get(fold) ?? fitGrid({ beat: without('beat'), downbeat: without('downbeat') });
    kept.set(fold, fits);
    return fits;
  };
}

/** The songs that can be scored, whole and cut at the start, of open makers: halves are only trained on. */
export function openSongs(songs: Examples): Examples {
  const open = (examples: readonly Example[]) => examples.filter((e) => !isLocked(e.maker) && e.cut < HALVES);
  return { beat: open(songs.beat), downbeat: open(songs.downbeat) };
}

/** Every open song scored by the fit that has not seen its fold, by fold. */
export function crossValidate(
  songs: Examples,
  fits: (fold: string) => GridFits,
  by: 'maker' | 'source',
): ReadonlyMap<string, HeldChoices> {
  const open = openSongs(songs);
  const folds = [...new Set(open.beat.map((e) => e[by]))];
  const part = (fold: string): Examples => ({
    beat: open.beat.filter((e) => e[by] === fold),
    downbeat: open.downbeat.filter((e) => e[by] === fold),
  });
  return new Map(folds.map((fold) => [fold, score(part(fold), fits(fold))]));
}

/** Held-out scores of several folds in one. */
export function together(held: Iterable<HeldChoices>): HeldChoices {
  const all = [...held];
  const of = (name: ChoiceName) => all.flatMap((h) => h[name]);
  return { phase: of('phase'), level: of('level'), downbeat: of('downbeat') };
}

/** Weights as they are shipped or used in a fold. */
export function weightsOf(
  name: ChoiceName,
  fits: GridFits,
  temperatures: Temperatures,
  about: Omit<LogitWeights, 'mean' | 'scale' | 'weights' | 'temperature'>,
): LogitWeights {
  return { ...about, temperature: temperatures[name], ...fits[name] };
}
