import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import markdownIt from 'markdown-it';

/** The repository, as a path that ends without a slash. */
export const ROOT = fileURLToPath(new URL('../..', import.meta.url)).replace(/\/$/, '');

/** Pages that a reader is led to, and those beside the code; what is generated or foreign is left out. */
const FOLDERS = ['docs', 'tests', 'notebooks'];

/** A page of the documentation. `file` is its path from the repository, with forward slashes. */
export interface Page {
  readonly file: string;
  readonly text: string;
}

/** Folders with Markdown of others in them. */
const FOREIGN = new Set(['node_modules', '.vitepress']);

/** Every page in Markdown. */
export function pages(): Page[] {
  return ['README.md', 'DEVELOPERS.md', ...FOLDERS.flatMap(markdownUnder)].map((file) => ({
    file,
    text: readFileSync(join(ROOT, file), 'utf8'),
  }));
}

function markdownUnder(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { withFileTypes: true })
    .filter(({ name }) => !FOREIGN.has(name))
    .flatMap((entry) => {
      const path = `${folder}/${entry.name}`;
      return entry.isDirectory() ? markdownUnder(path) : path.endsWith('.md') ? [path] : [];
    })
    .sort();
}

/** A piece of code between fences. */
export interface Fence {
  readonly file: string;
  /** Line of the opening fence, from 1. */
  readonly line: number;
  readonly language: string;
  readonly code: string;
  /** Reason why it is not run, from a comment `<!-- not run: … -->` right before it. */
  readonly notRun: string | null;
}

/** The pieces of code of a page, in order. */
export function fencesOf({ file, text }: Page): Fence[] {
  const lines = text.split('\n');
  return markdownIt()
    .parse(text, {})
    .filter((token) => token.type === 'fence')
    .map(({ map, info, content }) => {
      const line = (map?.[0] ?? 0) + 1;
      const before = lines.slice(0, line - 1).findLast((l) => l.trim() !== '') ?? '';
      const notRun = /^<!-- not run: (.+) -->$/.exec(before.trim())?.[1] ?? null;
      return { file, line, language: info.trim(), code: content, notRun };
    });
}
