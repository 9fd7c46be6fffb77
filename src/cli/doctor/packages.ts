import { ill, well, type Finding } from './finding.js';

/** What needs which packages that are not installed with the library. */
const PARTS = [
  { part: 'printed pieces', packages: ['pdfkit', 'fontkit', '@fontsource/atkinson-hyperlegible'] },
  { part: 'charts', packages: ['vega', 'vega-lite', 'fontkit'] },
  { part: 'notebooks', packages: ['tslab', 'markdown-it'] },
] as const;

/** Whether the packages for print, charts and notebooks are there. They are looked for and not loaded. */
export function checkPackages(): Finding[] {
  return PARTS.map(({ part, packages }) => {
    const missing = packages.filter((name) => !isInstalled(name));
    if (missing.length === 0) return well(part, packages.join(', '));
    return ill(part, `${missing.join(' and ')} not installed`, `npm install ${missing.join(' ')}`);
  });
}

function isInstalled(name: string): boolean {
  try {
    import.meta.resolve(`${name}/package.json`);
    return true;
  } catch (error) {
    // A package that does not give out its package.json is there all the same.
    return (error as NodeJS.ErrnoException).code === 'ERR_PACKAGE_PATH_NOT_EXPORTED';
  }
}
