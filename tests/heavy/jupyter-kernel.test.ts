import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { BARWISE, makeJupyterHome, pythonWith } from './jupyter/home.js';

const python = pythonWith('jupyter_kernel_test');
const MISSING = 'skipped: no jupyter_kernel_test here; install it (Debian: python3-jupyter-kernel-test)';

/** Source: jupyter_kernel_test 0.4, the Jupyter project's own tests of the messaging protocol 5.3. */
describe.skipIf(!python)(`the kernel in a real Jupyter${python ? '' : ` (${MISSING})`}`, () => {
  const home = makeJupyterHome();
  afterAll(() => home.remove());
  const options = { cwd: home.folder, env: home.env, encoding: 'utf8', timeout: 300_000 } as const;

  it('passes the whole of jupyter_kernel_test, and leaves nothing in the home folder', () => {
    const installed = spawnSync(process.execPath, [BARWISE, 'kernel', 'install'], options);
    expect(installed.status, installed.stderr).toBe(0);
    const result = spawnSync(python!, [join(import.meta.dirname, 'jupyter/conformance.py'), '-v'], options);
    expect(result.status, result.stderr).toBe(0);
    expect(result.stderr).toMatch(/Ran 17 tests/);
    expect(result.stderr).not.toMatch(/skipped/);
    expect(home.homeFiles()).toEqual([]);
  });
});
