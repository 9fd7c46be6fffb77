import { BarwiseError } from '../units/index.js';

/** Loads an optional package by name. */
export type Importer = (name: string) => Promise<unknown>;

const importByName: Importer = (name) => import(name);

/**
 * Loads a package that only drawing needs, at the moment it is needed.
 * @experimental
 * @throws BarwiseError `missing-package` with the command that installs it
 */
export async function loadPeer<T>(name: string, purpose: string, load: Importer = importByName): Promise<T> {
  try {
    return (await load(name)) as T;
  } catch (cause) {
    throw new BarwiseError('missing-package', `${purpose} needs the package ${name}: run \`npm install ${name}\`.`, {
      cause,
    });
  }
}
