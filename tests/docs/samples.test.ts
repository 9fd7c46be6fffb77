import { describe, expect, it } from 'vitest';
import { fencesOf, pages } from './pages.js';
import { commandsOf, pagesWithSamples, samplesOf, shortened } from './samples.js';

/** Languages of pieces of code: run (`sh`, `ts`), printed (`output`), or shown only. */
const LANGUAGES = ['sh', 'ts', 'output', 'text'];

describe('pieces of code in the documentation', () => {
  const fences = pages().flatMap(fencesOf);

  it('are of a language that says whether they are run', () => {
    const odd = fences.filter(({ language }) => !LANGUAGES.includes(language));
    expect(odd.map(({ file, line, language }) => `${file}:${line} ${language}`)).toEqual([]);
  });

  it('that say what is printed stand behind the sample that prints it', () => {
    const told = pagesWithSamples().flatMap(({ samples }) => samples.flatMap(({ output }) => (output ? [output] : [])));
    expect(fences.filter(({ language }) => language === 'output')).toHaveLength(told.length);
  });

  it('are run unless a reason is given', () => {
    const samples = pagesWithSamples().flatMap((page) => page.samples);
    expect(samples.length).toBeGreaterThan(20);
    for (const { notRun } of samples) expect(notRun === null || notRun.split(' ').length > 3).toBe(true);
  });
});

describe('reading samples', () => {
  const page = {
    file: 'page.md',
    text: '```sh\none\n\n# not this\ntwo # this\n```\n\n```output\na\n…\nz\n```\n\n<!-- not run: it takes a day -->\n```ts\n1\n```\n',
  };

  it('finds commands, what they print, and why others are not run', () => {
    const [shell, program] = samplesOf(page);
    expect(commandsOf(shell)).toEqual(['one', 'two # this']);
    expect(shell.output?.code).toBe('a\n…\nz\n');
    expect([shell.notRun, program.notRun, program.output]).toEqual([null, 'it takes a day', null]);
  });

  it('cuts what is printed as the page has it cut', () => {
    expect(shortened('1\n2 \n3\n4\n5\n', 'x\nx\n…\nx\n')).toBe('1\n2\n…\n5');
    expect(shortened('1\n2\n', 'x\n…\nx\nx\n')).toBe('1\n2');
    expect(shortened('1\n2\n3\n', 'x')).toBe('1\n2\n3');
  });
});
