import type { RemarkWords } from '../remark-words.js';
import { CORE } from './core.js';

const { bars, beats } = CORE;
const again = (bar: number | null) => (bar === null ? '' : `: ab Takt ${bar} neu zählen`);

export const REMARKS: RemarkWords = {
  bar: (bar, doubtful) => `Takt ${bar}${doubtful ? '?' : ''}`,
  at: (bar, beat, said) => `Takt ${bar}${beat > 1 ? `, Schlag ${beat}` : ''}: ${said}`,
  over: (n, next) => `${bars(n)} zu viel${again(next)}`,
  short: (n, next) => `${bars(n)} zu wenig${again(next)}`,
  barBeats: (bar, n) => `Takt ${bar} hat ${beats(n)}`,
  barAdded: (bar) => `Takt ${bar} hat Schläge zu viel`,
  barDropped: (bar) => `Takt ${bar} hat Schläge zu wenig`,
  pickUp: (n, bar) => `Auftakt${n === null ? '' : ` (${beats(n)})`} zu Takt ${bar}`,
  beatless(bar, next) {
    if (next === null) return `kein Beat ab Takt ${bar}`;
    return bar <= 1 ? `kein Beat bis Takt ${next}` : `kein Beat in Takt ${bar}–${next - 1}`;
  },
  newTempo: (bpm, bar) => `${bpm === null ? 'neues Tempo' : `${CORE.number(bpm, 1, 'fixed')} BPM`} ab Takt ${bar}`,
  halfTime: (bar, end) => (end === null ? `Half-Time-Gefühl ab Takt ${bar}` : `Half-Time-Gefühl in Takt ${bar}–${end}`),
  oddPhrase: (n) => `Phrase mit ${n} ${n === 1 ? 'Takt' : 'Takten'}`,
  notJudged: 'nicht beurteilt',
  noBars: 'Es wurden keine Takte gefunden.',
  opening: (phraseBars, beatsPerBar) => `Eine Zeile je Phrase, meist ${phraseBars} Takte zu ${beatsPerBar} Schlägen.`,
  rung({ name, doubtful, firstBar, lastBar, start, layers, remarks }) {
    const head = name === null ? 'Phrase' : name + (doubtful ? '?' : '');
    const heard = layers.length === 0 ? 'nichts zu hören' : layers.join(', ');
    const odd = remarks.length === 0 ? '' : `; ${remarks.join(' ')}`;
    return `${head}, Takt ${firstBar} bis ${lastBar} ab ${start}: ${heard}${odd}.`;
  },
  goesOn: (bar) => `Die Leiter geht weiter ab Takt ${bar}.`,
};
