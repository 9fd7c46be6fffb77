import { loadPeer } from '../charts/index.js';

type Renderer = (source: string) => string;

interface MarkdownIt {
  render(source: string): string;
}
interface MarkdownModule {
  readonly default: new (options: { html: boolean; linkify: boolean }) => MarkdownIt;
}

/**
 * A renderer of CommonMark. HTML inside the markdown is shown as text, and links that run scripts are not made.
 * @throws BarwiseError `missing-package`
 */
export async function markdownRenderer(): Promise<Renderer> {
  const { default: Markdown } = await loadPeer<MarkdownModule>('markdown-it', 'Writing a notebook as HTML');
  const markdown = new Markdown({ html: false, linkify: false });
  return (source) => markdown.render(source);
}
