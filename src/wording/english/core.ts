import { clock } from '../../units/index.js';
import { spelledTonic } from '../key-spelling.js';
import type { Words } from '../words.js';

/** The words and small formats that every sentence in English is made with. */
export const CORE: Omit<Words, 'irregularity' | 'remarks' | 'card' | 'story'> = {
  name: 'English',
  tag: 'en',
  layers: { kick: 'kick', bass: 'bass', percussion: 'percussion', harmony: 'harmony', voice: 'voice' },
  letters: { kick: 'K', bass: 'B', percussion: 'P', harmony: 'H', voice: 'V' },
  functions: {
    intro: 'intro',
    'build-up': 'build-up',
    drop: 'drop',
    main: 'main part',
    breakdown: 'breakdown',
    outro: 'outro',
  },
  changes: { enters: 'in', leaves: 'out' },
  drums: 'drums',
  everything: 'everything',
  dropLands: 'the drop lands',
  doubt: { sure: 'sure', fairly: 'fairly sure', not: 'not sure', unknown: 'cannot be judged' },
  bars: (n) => `${n} ${n === 1 ? 'bar' : 'bars'}`,
  beats: (n) => `${n} ${n === 1 ? 'beat' : 'beats'}`,
  clock: (time, decimals = 1) => clock(time, decimals),
  number: (value, decimals, fixed) =>
    (fixed ? value.toFixed(decimals) : `${Math.round(value * 10 ** decimals) / 10 ** decimals}`).replace('-', '−'),
  percent: (share) => `${Math.round(share * 100)} %`,
  key: (tonic, mode) => `${spelledTonic(tonic, mode)} ${mode}`,
  either: (first, second) => `${first} or ${second}?`,
  change: (layer, change) => `${layer} ${change}`,
  list: (items) =>
    items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]}`,
};
