import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';

/**
 * What a fit gave, kept in a folder for as long as nothing that it rests on changes: the source files it can reach by
 * imports, and `inputs`.
 *
 * @param entry source files in which the fit and its cues are
 */
export function keptFit<T>(folder: string, name: string, entry: readonly string[], inputs: unknown, fit: () => T): T {
  const digest = createHash('sha256').update(JSON.stringify(inputs));
  for (const file of reachable(entry)) digest.update(readFileSync(file));
  const file = join(folder, `${name}-${digest.digest('hex').slice(0, 16)}.json`);
  if (existsSync(file)) return JSON.parse(readFileSync(file, 'utf8')) as T;
  const result = fit();
  mkdirSync(folder, { recursive: true });
  writeFileSync(file, JSON.stringify(result));
  return result;
}

/** Fitted weights are what is made here; how arranged tracks are rendered shows in what was kept of them. */
const LEFT_OUT = /[\\/](weights|arranger|audio)[\\/]/;

/** The files and all they import by relative paths, types not counted. */
export function reachable(entry: readonly string[]): string[] {
  const seen = new Set<string>();
  const visit = (file: string) => {
    if (seen.has(file) || LEFT_OUT.test(file) || !existsSync(file)) return;
    seen.add(file);
    for (const [, path] of readFileSync(file, 'utf8').matchAll(/^(?:im|ex)port (?!type )[^;]*? from '(\.[^']+)\.js'/gm))
      visit(resolve(dirname(file), `${path}.ts`));
  };
  entry.forEach((file) => visit(resolve(file)));
  return [...seen].sort();
}
