import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import markdownIt from 'markdown-it';
import { describe, expect, it } from 'vitest';
import { slug } from '../../docs/.vitepress/slug.mjs';
import { pages, ROOT, type Page } from './pages.js';

type Token = ReturnType<ReturnType<typeof markdownIt>['parse']>[number];

/** Targets of the links and pictures of a page. */
function targetsOf({ text }: Page): string[] {
  const inline = (token: Token): Token[] => [token, ...(token.children ?? []).flatMap(inline)];
  return markdownIt()
    .parse(text, {})
    .flatMap(inline)
    .map((token) => token.attrGet(token.type === 'image' ? 'src' : 'href'))
    .filter((target) => target !== null)
    .map(String);
}

/** Anchors of a file in Markdown: one a heading, numbered where two are alike. */
function anchorsOf(text: string): Set<string> {
  const tokens = markdownIt().parse(text, {});
  const found = new Set<string>();
  tokens.forEach((token, i) => {
    if (token.type !== 'heading_open') return;
    const words = (tokens[i + 1].children ?? []).map((child) => child.content).join('');
    let name = slug(words);
    for (let k = 1; found.has(name); k++) name = `${slug(words)}-${k}`;
    found.add(name);
  });
  return found;
}

/** Folders that commands of the project make, and a fresh checkout has not got. */
const MADE = ['docs/api'];

describe.each(pages())('the links of $file', (page) => {
  const targets = targetsOf(page);
  const outside = targets.filter((target) => /^[a-z]+:/.test(target));
  const inside = targets.filter((target) => !outside.includes(target));

  it('lead to files and headings that are there', () => {
    const broken = inside.filter((target) => {
      const [path, anchor] = target.split('#');
      const file = path === '' ? page.file : normalize(join(dirname(page.file), path));
      const full = join(ROOT, file);
      if (!existsSync(full)) return true;
      if (anchor === undefined || !statSync(full).isFile()) return false;
      return !anchorsOf(readFileSync(full, 'utf8')).has(anchor);
    });
    expect(broken).toEqual([]);
  });

  it('and names of files and folders are those of the project', () => {
    const named = [...page.text.matchAll(/`((?:src|reports|tests|docs|notebooks)\/[\w./-]+)`/g)].map(
      ([, path]) => path,
    );
    const gone = named.filter(
      (path) => !path.includes('NAME') && !MADE.includes(path) && !existsSync(join(ROOT, path)),
    );
    expect(gone).toEqual([]);
  });

  it('out of the project are whole addresses', () => {
    expect(outside.filter((target) => !/^https:\/\/[\w.-]+\.[a-z]{2,}(\/\S*)?$/.test(target))).toEqual([]);
  });
});

describe('the guide', () => {
  const pictures = pages()
    .filter(({ file }) => file.startsWith('docs/guide/'))
    .flatMap((page) => targetsOf(page).filter((target) => target.startsWith('pictures/')));

  it('has pictures, together under 1.5 MB', () => {
    const sizes = [...new Set(pictures)].map((name) => statSync(join(ROOT, 'docs/guide', name)).size);
    expect(sizes.length).toBeGreaterThan(4);
    expect(sizes.reduce((a, b) => a + b, 0)).toBeLessThan(1_500_000);
  });
});
