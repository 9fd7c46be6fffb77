import { BarwiseError } from '../units/index.js';

/** What makes of data of one version data of the next. */
export type VersionStep<T> = (data: T) => T;

/** A format that is kept in files: its present version, and the step from every earlier one. */
export interface VersionedFormat<T> {
  /** As a sentence names it, with its article. @example 'an analysis' */
  readonly name: string;
  readonly version: number;
  /** Under the version each starts from. */
  readonly steps: Readonly<Record<number, VersionStep<T>>>;
}

/**
 * Brings data of an earlier version up to the present one, a step a version; data of the present version come back as
 * they are.
 *
 * @param found the version that the data say they are of
 * @param file for messages
 * @throws BarwiseError `unsupported-format` for a version that is newer than the present one, `damaged` for one that
 * never was
 */
export function bringUp<T>(data: T, found: unknown, format: VersionedFormat<T>, file?: string): T {
  const { name, version, steps } = format;
  const about = file === undefined ? {} : { file };
  const is = file === undefined ? `This is ${name}` : `${file} is ${name}`;
  if (typeof found === 'number' && Number.isInteger(found) && found > version)
    throw new BarwiseError(
      'unsupported-format',
      `${is} of version ${found}, and this Barwise knows versions up to ${version}: update Barwise, it was made by a newer one.`,
      about,
    );
  let at = found as number;
  let now = data;
  for (; at !== version; at++) {
    const step = typeof at === 'number' ? steps[at] : undefined;
    if (step === undefined)
      throw new BarwiseError(
        'damaged',
        `${is} of a version that there never was (${JSON.stringify(found) ?? 'none is given'}): make it anew.`,
        about,
      );
    now = step(now);
  }
  return now;
}
