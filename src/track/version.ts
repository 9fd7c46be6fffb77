import { readFileSync } from 'node:fs';

/** The package's version, from its package.json (two folders up in the sources, three in the build). */
export const VERSION: string = readVersion();

/**
 * The version of the program that analyses, to tell whether a kept analysis is still what it would say: the package's
 * version, and after a plus the state of the analysis as it was built (build metadata of Semantic Versioning 2.0.0,
 * section 10). Uncompiled sources have none.
 */
export const ANALYSIS_VERSION: string = [VERSION, readBuildId()].filter(Boolean).join('+');

function readVersion(): string {
  for (const up of ['../../package.json', '../../../package.json']) {
    try {
      const data = JSON.parse(textBeside(up)) as { name?: string; version?: string };
      if (data.name === 'barwise' && data.version) return data.version;
    } catch {
      continue;
    }
  }
  return '0.0.0';
}

/** Written beside this file by src/setup/build.mjs. */
function readBuildId(): string | null {
  try {
    return textBeside('./build-id');
  } catch {
    return null;
  }
}

function textBeside(path: string): string {
  return readFileSync(new URL(path, import.meta.url), 'utf8');
}
