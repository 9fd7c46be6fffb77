import type { Layer } from '../units/index.js';

/** The one family of every drawing; the fallbacks are about as wide, so that nothing measured for it is cut. @public */
export const FONT = "'Atkinson Hyperlegible', Arial, Helvetica, sans-serif";

/**
 * Colours of the drawings. The hues are those of Okabe and Ito ("Color universal design", 2008), which stay apart for
 * colour-blind eyes; the blues are one hue in steps of lightness, so that they stay apart in grey as well.
 * @public
 */
export const COLOURS = {
  ink: '#1b2733',
  quiet: '#5b6873',
  line: '#c9d0d6',
  beat: '#93a0ab',
  faint: '#e6eaed',
  paper: '#ffffff',
  deep: '#0b3556',
  middle: '#4f93c4',
  pale: '#b5d8ee',
  accent: '#d55e00',
} as const;

/**
 * One colour a layer, dark to light from the floor up. Wherever it is used the layer's name stands beside it.
 * @public
 */
export const LAYER_COLOURS: Readonly<Record<Layer, string>> = {
  kick: '#1b2733',
  bass: '#0072b2',
  percussion: '#a14700',
  harmony: '#009e73',
  voice: '#cc79a7',
};

/** Sizes in pixels; the type is never smaller than 11. */
export const SIZES = { width: 680, label: 11, title: 15, subtitle: 12 } as const;

/** The vega-lite `config` that all charts share. */
export const CONFIG = {
  font: FONT,
  background: COLOURS.paper,
  padding: 8,
  axis: {
    labelColor: COLOURS.ink,
    labelFontSize: SIZES.label,
    labelLimit: 0,
    titleColor: COLOURS.quiet,
    titleFontSize: SIZES.label,
    titleFontWeight: 'normal',
    titleLimit: 0,
    domainColor: COLOURS.quiet,
    tickColor: COLOURS.quiet,
    grid: false,
  },
  // The same room at the left of every chart, so that charts under each other share their time axis.
  axisLeft: { minExtent: 92 },
  title: {
    anchor: 'start',
    frame: 'group',
    color: COLOURS.ink,
    fontSize: SIZES.title,
    subtitleColor: COLOURS.quiet,
    subtitleFontSize: SIZES.subtitle,
    subtitlePadding: 4,
    offset: 10,
    limit: 0,
  },
  view: { stroke: COLOURS.line },
} as const;
