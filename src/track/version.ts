import { readFileSync } from 'node:fs';

/** The package's version, from its package.json (two folders up in the sources, three in the build). */
export const VERSION: string = readVersion();

function readVersion(): string {
  for (const up of ['../../package.json', '../../../package.json']) {
    try {
      const text = readFileSync(new URL(up, import.meta.url), 'utf8');
      const data = JSON.parse(text) as { name?: string; version?: string };
      if (data.name === 'barwise' && data.version) return data.version;
    } catch {
      continue;
    }
  }
  return '0.0.0';
}
