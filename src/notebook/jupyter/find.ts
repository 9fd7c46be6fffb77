import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { BarwiseError } from '../../units/index.js';

/** Front ends that open a notebook file, the richer first. */
const PROGRAMS = ['jupyter-lab', 'jupyter-notebook'] as const;

/**
 * The program of the user's Jupyter that opens notebooks.
 * @experimental
 * @param path the folders to look in, as in PATH
 * @throws BarwiseError `missing-package` that says what to install
 */
export function findJupyter(path = process.env['PATH'] ?? ''): string {
  const endings = process.platform === 'win32' ? ['.exe', '.cmd'] : [''];
  for (const program of PROGRAMS)
    for (const folder of path.split(delimiter).filter(Boolean))
      for (const ending of endings) {
        const file = join(folder, program + ending);
        if (isProgram(file)) return file;
      }
  throw new BarwiseError(
    'missing-package',
    'There is no Jupyter here: install it (Debian: `apt install jupyter-notebook`; elsewhere: `pip install notebook`), or leave --open out to run the notebook without it.',
  );
}

function isProgram(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
