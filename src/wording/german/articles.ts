import type { Layer, SectionFunction } from '../../units/index.js';

/** The articles of the German names of sections and layers, in the nominative. */
export const GERMAN_ARTICLES: {
  readonly sections: Readonly<Record<SectionFunction, string>>;
  readonly layers: Readonly<Record<Layer, string>>;
} = {
  sections: { intro: 'das', 'build-up': 'der', drop: 'der', main: 'der', breakdown: 'der', outro: 'das' },
  layers: { kick: 'die', bass: 'der', percussion: 'die', harmony: 'die', voice: 'die' },
};
