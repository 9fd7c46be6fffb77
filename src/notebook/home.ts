import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { BarwiseError } from '../units/index.js';

/** The folder of this package: the nearest one above with a package.json. @experimental */
export function packageFolder(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json')) && dirname(folder) !== folder) folder = dirname(folder);
  return folder;
}

/** The folder from which cells import `barwise`: the package itself in a checkout, else the folder it is installed in. */
export function importBase(): string {
  const home = packageFolder();
  if (existsSync(join(home, 'node_modules', 'barwise'))) return home;
  const parent = dirname(home);
  return basename(parent) === 'node_modules' ? dirname(parent) : home;
}

/** @throws BarwiseError `missing-package` when the notebook kernel is not installed */
export function requireKernelPackage(): void {
  try {
    createRequire(import.meta.url).resolve('tslab/dist/jupyter.js');
  } catch (cause) {
    throw new BarwiseError(
      'missing-package',
      'Running a notebook needs the package tslab: run `npm install tslab@1.0.22`.',
      {
        cause,
      },
    );
  }
}
