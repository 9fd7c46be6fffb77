import { existsSync, readFileSync, writeFileSync } from 'node:fs';

/**
 * Replaces what stands between `<!-- NAME:begin -->` and `<!-- NAME:end -->` in a document; the rest is a person's.
 * A document or a pair of markers that is missing is added at the end.
 */
export function fillBetween(file: string | URL, name: string, text: string): void {
  const begin = `<!-- ${name}:begin -->`;
  const end = `<!-- ${name}:end -->`;
  const before = existsSync(file) ? readFileSync(file, 'utf8') : '';
  const from = before.indexOf(begin);
  const to = before.indexOf(end);
  const block = `${begin}\n\n${text.trim()}\n\n${end}`;
  const after =
    from >= 0 && to > from
      ? before.slice(0, from) + block + before.slice(to + end.length)
      : `${before.trimEnd()}\n\n${block}\n`;
  writeFileSync(file, after);
}
