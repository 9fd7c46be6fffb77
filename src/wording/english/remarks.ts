import type { RemarkWords } from '../remark-words.js';
import { CORE } from './core.js';

const { bars, beats } = CORE;
const again = (bar: number | null) => (bar === null ? '' : `: count again from bar ${bar}`);

export const REMARKS: RemarkWords = {
  bar: (bar, doubtful) => `bar ${bar}${doubtful ? '?' : ''}`,
  at: (bar, beat, said) => `bar ${bar}${beat > 1 ? `, beat ${beat}` : ''}: ${said}`,
  over: (n, next) => `${bars(n)} over${again(next)}`,
  short: (n, next) => `${bars(n)} short${again(next)}`,
  barBeats: (bar, n) => `bar ${bar} has ${beats(n)}`,
  barAdded: (bar) => `bar ${bar} has added beats`,
  barDropped: (bar) => `bar ${bar} has dropped beats`,
  pickUp: (n, bar) => `pick-up${n === null ? '' : ` of ${beats(n)}`} into bar ${bar}`,
  beatless(bar, next) {
    if (next === null) return `no beat from bar ${bar}`;
    return bar <= 1 ? `no beat until bar ${next}` : `no beat in bars ${bar}–${next - 1}`;
  },
  newTempo: (bpm, bar) => `${bpm === null ? 'new tempo' : `${CORE.number(bpm, 1, 'fixed')} BPM`} from bar ${bar}`,
  halfTime: (bar, end) => (end === null ? `half-time feel from bar ${bar}` : `half-time feel in bars ${bar}–${end}`),
  oddPhrase: (n) => `phrase of ${bars(n)}`,
  notJudged: 'not judged',
  noBars: 'No bars were found.',
  opening: (phraseBars, beatsPerBar) => `One row a phrase, usually ${phraseBars} bars of ${beatsPerBar} beats.`,
  rung({ name, doubtful, firstBar, lastBar, start, layers, remarks }) {
    const head = name === null ? 'Phrase' : capital(name) + (doubtful ? '?' : '');
    const heard = layers.length === 0 ? 'nothing heard' : layers.join(', ');
    const odd = remarks.length === 0 ? '' : `; ${remarks.join(' ')}`;
    return `${head}, bars ${firstBar} to ${lastBar} from ${start}: ${heard}${odd}.`;
  },
  goesOn: (bar) => `The ladder goes on from bar ${bar}.`,
};

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
