import { fencesOf, pages, type Fence, type Page } from './pages.js';

/** A piece of code that readers are told to run, and what the page says it prints. */
export interface Sample extends Fence {
  readonly language: 'sh' | 'ts';
  /** The block right behind it, in the language `output`: what it prints; a line of `…` stands for what is left out. */
  readonly output: Fence | null;
}

/** The samples of a page, in order. */
export function samplesOf(page: Page): Sample[] {
  const fences = fencesOf(page);
  const lines = page.text.split('\n');
  return fences.flatMap((fence, i): Sample[] => {
    const { language } = fence;
    if (language !== 'sh' && language !== 'ts') return [];
    const next = fences[i + 1];
    const end = fence.line + fence.code.split('\n').length;
    const follows = next?.language === 'output' && lines.slice(end, next.line - 1).every((l) => l.trim() === '');
    return [{ ...fence, language, output: follows ? next : null }];
  });
}

/** Every page that has samples, with them. */
export function pagesWithSamples(): { readonly page: Page; readonly samples: readonly Sample[] }[] {
  return pages()
    .map((page) => ({ page, samples: samplesOf(page) }))
    .filter(({ samples }) => samples.length > 0);
}

/** The commands of a sample in `sh`: one a line, without blank lines and lines that are only a comment. */
export function commandsOf({ code }: Pick<Fence, 'code'>): string[] {
  return code.split('\n').filter((line) => line.trim() !== '' && !line.trim().startsWith('#'));
}

const LEFT_OUT = '…';

/** What was printed, cut to as many lines at its beginning and end as a page shows of it. */
export function shortened(printed: string, shown: string): string {
  const [all, told] = [tidy(printed), tidy(shown)].map((text) => text.split('\n'));
  const at = told.indexOf(LEFT_OUT);
  if (at < 0 || told.length - 1 >= all.length) return all.join('\n');
  const tail = told.length - at - 1;
  return [...all.slice(0, at), LEFT_OUT, ...all.slice(all.length - tail)].join('\n');
}

function tidy(text: string): string {
  return text
    .split('\n')
    .map((line) => line.trimEnd())
    .join('\n')
    .trim();
}
