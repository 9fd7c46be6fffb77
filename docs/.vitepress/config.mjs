import { existsSync, readdirSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitepress';
import { slug } from './slug.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** Pages of the site: these, and what lies in docs/. Everything else in the repository is code. */
const PAGES = ['README.md', 'DEVELOPERS.md'];

/** Three rungs of a ladder, the middle one too long. */
const ICON = `data:image/svg+xml,${encodeURIComponent(
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 16 16"><path d="M1 2h10v3H1zm0 4.5h14v3H1zM1 11h10v3H1z"/></svg>',
)}`;

export default defineConfig({
  title: 'Barwise',
  description: 'Where the beats, bars, groups and phrases of a record fall, and what happens on each one',
  lang: 'en-GB',
  srcDir: '..',
  srcExclude: excluded(),
  outDir: './.vitepress/dist',
  cacheDir: './.vitepress/cache',
  rewrites: { 'README.md': 'index.md', 'DEVELOPERS.md': 'developers.md', 'docs/:page*': ':page*' },
  head: [['link', { rel: 'icon', href: ICON }]],
  markdown: {
    anchor: { slugify: slug },
    // What a command prints has no grammar.
    languages: [{ name: 'output', scopeName: 'text.output', patterns: [], repository: {} }],
    theme: { light: 'github-light-high-contrast', dark: 'github-dark-high-contrast' },
    config: (md) => md.core.ruler.push('links-of-the-site', linksOfTheSite),
  },
  themeConfig: {
    search: { provider: 'local', options: { miniSearch: { searchOptions: { prefix: true, fuzzy: 0.1 } } } },
    outline: [2, 3],
    docFooter: { prev: 'Before', next: 'Next' },
    nav: [
      { text: 'Guide', link: '/guide/' },
      { text: 'Command', link: '/command' },
      { text: 'Methods', link: '/methods' },
      { text: 'Accuracy', link: '/accuracy' },
    ],
    sidebar: [
      { text: 'Barwise', link: '/' },
      {
        text: 'Guide',
        items: [
          { text: 'Which way to go', link: '/guide/' },
          { text: 'Your hearing', link: '/guide/hearing' },
          { text: 'The teacher', link: '/guide/teacher' },
          { text: 'The curious DJ', link: '/guide/curious-dj' },
          { text: 'The working DJ', link: '/guide/working-dj' },
          { text: 'The structure card', link: '/guide/structure-card' },
          { text: 'Corrections', link: '/guide/corrections' },
          { text: 'The notebook', link: '/guide/notebook' },
          { text: 'Matching and practising', link: '/guide/matching' },
          { text: 'The whole crate', link: '/guide/crate' },
          { text: 'Open formats', link: '/guide/exchange' },
        ],
      },
      {
        text: 'Reference',
        items: [
          { text: 'The command', link: '/command' },
          { text: 'The library', link: '/api/index.html', target: '_self' },
          { text: 'Words', link: '/glossary' },
          { text: 'Errors', link: '/errors' },
          { text: 'Schemas', link: '/schema/README' },
        ],
      },
      {
        text: 'How it works',
        collapsed: false,
        items: [
          { text: 'Methods', link: '/methods' },
          { text: 'Sound', link: '/methods/sound' },
          { text: 'Curves', link: '/methods/curves' },
          { text: 'Fitted scores', link: '/methods/fitted-scores' },
          { text: 'Tempo and beats', link: '/methods/beats' },
          { text: 'Bars', link: '/methods/bars' },
          { text: 'Layers and events', link: '/methods/layers' },
          { text: 'Phrases and sections', link: '/methods/phrases' },
          { text: 'Key and loudness', link: '/methods/key-and-loudness' },
          { text: 'Two records on one count', link: '/methods/matching' },
          { text: 'Practice audio', link: '/methods/practice' },
          { text: 'Sources', link: '/methods/sources' },
        ],
      },
      {
        text: 'As measured',
        items: [
          { text: 'Accuracy', link: '/accuracy' },
          { text: 'Speed and memory', link: '/speed' },
          { text: 'When something goes wrong', link: '/reliability' },
          { text: 'Security', link: '/security' },
        ],
      },
      {
        text: 'For contributors',
        items: [
          { text: 'For contributors', link: '/developers' },
          { text: 'Decisions', link: '/decisions' },
          { text: 'Dependencies', link: '/dependencies' },
          { text: 'What has changed', link: '/changelog' },
        ],
      },
    ],
  },
});

/** Whatever stands at the top of the repository and is none of the pages. */
function excluded() {
  return readdirSync(ROOT, { withFileTypes: true })
    .filter(({ name }) => name !== 'docs' && !PAGES.includes(name))
    .flatMap((entry) => (entry.isDirectory() ? [`${entry.name}/**`] : entry.name.endsWith('.md') ? [entry.name] : []));
}

/** Links between pages become those of the site; links to code lead nowhere there, and only their words stay. */
function linksOfTheSite(state) {
  const page = state.env.realPath ?? state.env.path;
  for (const token of state.tokens) {
    const open = [];
    for (const child of token.children ?? []) {
      if (child.type !== 'link_open' && child.type !== 'link_close') continue;
      if (child.type === 'link_open') {
        const href = addressOf(child.attrGet('href'), page);
        open.push(href !== null);
        if (href !== null) child.attrSet('href', href);
        else hide(child);
      } else if (!open.pop()) hide(child);
    }
  }
}

function hide(token) {
  Object.assign(token, { type: 'text', tag: '', nesting: 0, content: '', attrs: null });
}

/** Where a link of a page leads on the site; null for what is not on it. */
function addressOf(href, page) {
  if (/^(?:[a-z]+:|#|\/)/.test(href)) return href;
  const [path, anchor] = href.split('#');
  const file = relative(ROOT, join(dirname(page), path)).split('\\').join('/');
  if (!file.endsWith('.md') || !existsSync(join(ROOT, file))) return null;
  if (!PAGES.includes(file) && !file.startsWith('docs/')) return null;
  const address = file === 'README.md' ? '' : file.replace(/^docs\//, '').replace(/(?:index)?\.md$/, '');
  return `/${address === 'DEVELOPERS' ? 'developers' : address}${anchor ? `#${anchor}` : ''}`;
}
