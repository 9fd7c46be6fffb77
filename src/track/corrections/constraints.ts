import type { EventConstraint, FormConstraints } from '../../form/index.js';
import type { GridConstraints } from '../../rhythm/index.js';
import type { Constraints } from '../options.js';
import type { Correction, CorrectionKind } from './correction.js';

/**
 * What the stages are run under: the corrections, and over them what was asked for in this run.
 * A phrase or section that starts somewhere is a one of a bar as well.
 * @public
 */
export function constraintsOf(corrections: readonly Correction[], given: Constraints = {}): Constraints {
  const of = <K extends CorrectionKind>(kind: K) =>
    corrections.filter((c): c is Extract<Correction, { kind: K }> => c.kind === kind);
  const [tempo, metre, first, beat] = [of('tempo')[0], of('metre')[0], of('first-one')[0], of('beat')[0]];
  const [phrases, sections] = [of('phrase'), of('section')];
  const starts = [...of('bar'), ...[...phrases, ...sections].filter((c) => c.starts)].map((c) => c.time);
  const grid: GridConstraints = {
    ...(tempo ? { tempo: tempo.bpm } : {}),
    ...(metre ? { beatsPerBar: metre.beatsPerBar } : {}),
    ...(first ? { firstOneAt: first.time } : {}),
    ...(beat ? { beatAt: beat.time } : {}),
    ...(starts.length > 0 ? { barStartsAt: starts.sort((a, b) => a - b) } : {}),
    ...given.grid,
  };
  const form: FormConstraints = {
    ...some(
      'phraseStarts',
      phrases.filter((c) => c.starts).map((c) => c.time),
    ),
    ...some(
      'noPhraseStarts',
      phrases.filter((c) => !c.starts).map((c) => c.time),
    ),
    ...some(
      'sections',
      sections
        .filter((c) => c.starts)
        .map((c) => ({ start: c.time, ...(c.function === null ? {} : { function: c.function }) })),
    ),
    ...some(
      'noSectionStarts',
      sections.filter((c) => !c.starts).map((c) => c.time),
    ),
    ...some(
      'events',
      of('event').map(({ time, layer, change, happens }): EventConstraint => ({ time, layer, change, happens })),
    ),
    ...given.form,
  };
  return {
    ...(Object.keys(grid).length > 0 ? { grid } : {}),
    ...(Object.keys(form).length > 0 ? { form } : {}),
  };
}

function some<K extends string, T>(name: K, values: readonly T[]): Partial<Record<K, readonly T[]>> {
  return values.length > 0 ? ({ [name]: values } as Record<K, readonly T[]>) : {};
}

/**
 * What an analysis says it was made under: the corrections, the ones of this run in place of those they overrule.
 * @public
 */
export function toldOf(corrections: readonly Correction[], { grid }: Constraints = {}): Correction[] {
  const now: Correction[] = [
    ...(grid?.tempo === undefined ? [] : [{ kind: 'tempo' as const, bpm: grid.tempo }]),
    ...(grid?.beatsPerBar === undefined ? [] : [{ kind: 'metre' as const, beatsPerBar: grid.beatsPerBar }]),
    ...(grid?.firstOneAt === undefined ? [] : [{ kind: 'first-one' as const, time: grid.firstOneAt }]),
    ...(grid?.beatAt === undefined ? [] : [{ kind: 'beat' as const, time: grid.beatAt }]),
  ];
  return [...now, ...corrections.filter((c) => !now.some((n) => n.kind === c.kind))];
}
