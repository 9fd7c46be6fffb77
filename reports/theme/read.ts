import { readFile } from 'node:fs/promises';
import { parse } from 'yaml';
import { BarwiseError } from '../../src/index.js';
import { styleOf } from './style.js';
import type { ThemeData } from './schema.js';

/**
 * Reads a theme from a YAML or JSON file.
 * @experimental
 * @throws BarwiseError `file-not-found`, `file-unreadable` where it is no YAML, `bad-option` where it is no theme
 * @example await printCards(tracks, 'cards.pdf', { theme: await readTheme('school.yaml') })
 */
export async function readTheme(file: string): Promise<ThemeData> {
  const text = await readFile(file, 'utf8').catch((cause: NodeJS.ErrnoException) => {
    const code = cause.code === 'ENOENT' ? 'file-missing' : 'file-unreadable';
    throw new BarwiseError(code, `The theme ${file} cannot be read: check its name.`, { file, cause });
  });
  let data: unknown;
  try {
    data = parse(text, { maxAliasCount: 10 }) ?? {};
  } catch (cause) {
    const [line] = (cause as Error).message.split('\n');
    throw new BarwiseError('file-unreadable', `The theme ${file} is no YAML (${line}): mend it and try again.`, {
      file,
      cause,
    });
  }
  try {
    styleOf(data);
  } catch (cause) {
    if (!(cause instanceof BarwiseError)) throw cause;
    throw new BarwiseError(cause.code, cause.message.replace('The theme', `The theme ${file}`), { file, cause });
  }
  return data as ThemeData;
}
