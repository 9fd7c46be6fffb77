/** What a line, a face or a letter is for; a theme gives it a colour. */
export type Ink = 'ink' | 'muted' | 'accent' | 'paper' | 'faint';

/** Colours as `#rrggbb`. `ink`, `muted` and `accent` carry text: each stands at 4.5 : 1 or more on `paper` (WCAG 2.2, 1.4.3). */
export type LadderTheme = Readonly<Record<Ink, string>>;

/** Greys first: the accent turns dark in grey, and nothing depends on its colour. */
export const PAPER_THEME: LadderTheme = {
  paper: '#ffffff',
  ink: '#111111',
  muted: '#4a4a4a',
  accent: '#8a2b06',
  faint: '#b8b8b8',
};

/** For a bright screen. */
export const LIGHT_THEME: LadderTheme = { ...PAPER_THEME, paper: '#fbfaf7' };

/** For a dark room. */
export const DARK_THEME: LadderTheme = {
  paper: '#15171a',
  ink: '#ece8df',
  muted: '#b3aea3',
  accent: '#ffb27a',
  faint: '#4b4f55',
};

/** Contrast of two colours from 1 to 21, as WCAG 2.2 defines it. @example contrastRatio('#ffffff', '#000000') // 21 */
export function contrastRatio(one: string, other: string): number {
  const [a, b] = [luminance(one), luminance(other)];
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

/** Relative luminance of an sRGB colour, WCAG 2.2. */
function luminance(colour: string): number {
  const channel = (from: number) => {
    const c = parseInt(colour.slice(from, from + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}
