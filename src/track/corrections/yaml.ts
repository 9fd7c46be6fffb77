import { createRequire } from 'node:module';
import type * as Yaml from 'yaml';

/** Loads as an import would, but when it is called. */
const require = createRequire(import.meta.url);

/**
 * The YAML library, loaded when it is first asked for: most tracks have no corrections, and its seventy files take 0.1 s and
 * more of processor time.
 */
export function yaml(): typeof Yaml {
  return require('yaml') as typeof Yaml;
}
