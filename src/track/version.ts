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
    const text = textBeside(up);
    if (text === null) continue;
    const data = JSON.parse(text) as { name?: string; version?: string };
    if (data.name === 'barwise' && data.version) return data.version;
  }
  return '0.0.0';
}

/** Written beside this file by src/setup/build.mjs. */
function readBuildId(): string | null {
  return textBeside('./build-id');
}

function textBeside(path: string): string | null {
  try {
    return readFileSync(new URL(path, import.meta.url), 'utf8');
  } catch {
    return null;
  }
}
