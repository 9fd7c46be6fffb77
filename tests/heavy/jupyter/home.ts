import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** The command as a user has it. */
export const BARWISE = join(import.meta.dirname, '../../../dist/src/cli/main.js');

/** The system's own Python: Debian's Jupyter is not seen by others. */
const PYTHONS = ['/usr/bin/python3', 'python3'];

/** A Python that has a module; `undefined` when none has. */
export function pythonWith(module: string): string | undefined {
  return PYTHONS.find((python) => spawnSync(python, ['-c', `import ${module}`]).status === 0);
}

/** A project folder and a home folder of their own, so that nothing of the user's is read or written. */
export interface JupyterHome {
  readonly folder: string;
  readonly env: NodeJS.ProcessEnv;
  /** What has been written to the home folder. */
  readonly homeFiles: () => string[];
  readonly remove: () => void;
}

export function makeJupyterHome(): JupyterHome {
  const folder = mkdtempSync(join(tmpdir(), 'barwise-jupyter-'));
  const home = mkdtempSync(join(tmpdir(), 'barwise-home-'));
  const own = Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^(JUPYTER|XDG)_/.test(name)));
  return {
    folder,
    env: {
      ...own,
      HOME: home,
      JUPYTER_PATH: join(folder, '.jupyter'),
      JUPYTER_RUNTIME_DIR: join(folder, 'runtime'),
      JUPYTER_CONFIG_DIR: join(folder, 'config'),
      JUPYTER_DATA_DIR: join(folder, 'data'),
      IPYTHONDIR: join(folder, 'ipython'),
      JUPYTER_PLATFORM_DIRS: '1',
    },
    homeFiles: () => (existsSync(home) ? readdirSync(home, { recursive: true, encoding: 'utf8' }) : []),
    remove: () => [folder, home].forEach((path) => rmSync(path, { recursive: true, force: true })),
  };
}
