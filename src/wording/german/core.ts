import { clock } from '../../units/index.js';
import { spelledTonic } from '../key-spelling.js';
import type { Words } from '../words.js';

const TONICS: Readonly<Record<string, string>> = {
  C: 'C',
  'C#': 'Cis',
  D: 'D',
  'D#': 'Dis',
  E: 'E',
  F: 'F',
  'F#': 'Fis',
  G: 'G',
  'G#': 'Gis',
  A: 'A',
  'A#': 'Ais',
  B: 'H',
  Db: 'Des',
  Eb: 'Es',
  Ab: 'As',
  Bb: 'B',
};

/** A decimal point becomes a comma. */
export const comma = (text: string): string => text.replace(/(\d)\.(\d)/g, '$1,$2');

/** The words and small formats that every sentence in German is made with. */
export const CORE: Omit<Words, 'irregularity' | 'remarks' | 'card' | 'story'> = {
  name: 'Deutsch',
  tag: 'de',
  layers: { kick: 'Kick', bass: 'Bass', percussion: 'Percussion', harmony: 'Harmonie', voice: 'Stimme' },
  letters: { kick: 'K', bass: 'B', percussion: 'P', harmony: 'H', voice: 'S' },
  functions: {
    intro: 'Intro',
    'build-up': 'Build-up',
    drop: 'Drop',
    main: 'Hauptteil',
    breakdown: 'Breakdown',
    outro: 'Outro',
  },
  changes: { enters: 'rein', leaves: 'raus' },
  drums: 'Drums',
  everything: 'alles',
  dropLands: 'der Drop setzt ein',
  doubt: { sure: 'sicher', fairly: 'ziemlich sicher', not: 'nicht sicher', unknown: 'nicht zu beurteilen' },
  bars: (n) => `${n} ${n === 1 ? 'Takt' : 'Takte'}`,
  beats: (n) => `${n} ${n === 1 ? 'Schlag' : 'Schläge'}`,
  clock: (time, decimals = 1) => comma(clock(time, decimals)),
  number: (value, decimals, fixed) =>
    comma(fixed ? value.toFixed(decimals) : `${Math.round(value * 10 ** decimals) / 10 ** decimals}`).replace('-', '−'),
  percent: (share) => `${Math.round(share * 100)} %`,
  key: (tonic, mode) => {
    const name = TONICS[spelledTonic(tonic, mode)];
    return mode === 'major' ? `${name}-Dur` : `${name.charAt(0).toLowerCase()}${name.slice(1)}-Moll`;
  },
  either: (first, second) => `${first} oder ${second}?`,
  change: (layer, change) => `${layer} ${change}`,
  list: (items) =>
    items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} und ${items[items.length - 1]}`,
};
