import type { WishOutcome } from '../../src/index.js';
import type { Style } from '../theme/index.js';

/** The words of a running order on paper, in one language. */
export interface OrderWords {
  readonly title: string;
  summary(tracks: number, time: string, isBest: boolean): string;
  readonly wishes: string;
  wish(outcome: WishOutcome, nameOf: (track: number) => string): string;
  readonly kept: string;
  readonly notKept: string;
  readonly loudness: string;
  readonly density: string;
  readonly shape: string;
  /** How a record comes in: at the end of the one before; or with its bar on a bar of that one. */
  readonly atTheEnd: string;
  onBar(own: number, other: number): string;
  readonly heads: readonly [string, string, string, string, string, string, string];
}

const list = (places: readonly number[]): string => places.join(', ');

const ORDER_WORDS: Readonly<Record<'en' | 'de', OrderWords>> = {
  en: {
    title: 'Running order',
    summary: (tracks, time, isBest) =>
      `${tracks} tracks, about ${time}. ${isBest ? 'The best there is by steps of tempo, keys, plans and wishes.' : 'A good order, found by search.'}`,
    wishes: 'Wishes',
    wish(o, nameOf) {
      switch (o.wish) {
        case 'start':
          return `Begins with ${nameOf(o.track)}`;
        case 'end':
          return `Ends with ${nameOf(o.track)}`;
        case 'before':
          return `${nameOf(o.track)} before ${nameOf(o.other)}`;
        case 'largest-step':
          return `At most ${o.bpm} BPM a step${o.kept ? '' : `; more into ${list(o.missed)}`}`;
        case 'shape':
          return `The shape of the evening${o.kept ? '' : `; further off at ${list(o.missed)}`}`;
      }
    },
    kept: 'kept',
    notKept: 'not kept',
    loudness: 'Loudness as measured, LUFS',
    density: 'Layers heard in a bar, on average',
    shape: 'Place of each track among all by both; dashed: as wished',
    atTheEnd: 'as the one before ends',
    onBar: (own, other) => `bar ${own} on bar ${other}`,
    heads: ['', 'Track', 'BPM', 'Key', 'LUFS', 'Layers', 'How it comes in'],
  },
  de: {
    title: 'Reihenfolge',
    summary: (tracks, time, isBest) =>
      `${tracks} Tracks, etwa ${time}. ${isBest ? 'Die beste nach Temposchritten, Tonarten, Plänen und Wünschen.' : 'Eine gute Reihenfolge, durch Suche gefunden.'}`,
    wishes: 'Wünsche',
    wish(o, nameOf) {
      switch (o.wish) {
        case 'start':
          return `Beginnt mit ${nameOf(o.track)}`;
        case 'end':
          return `Endet mit ${nameOf(o.track)}`;
        case 'before':
          return `${nameOf(o.track)} vor ${nameOf(o.other)}`;
        case 'largest-step':
          return `Höchstens ${o.bpm} BPM je Schritt${o.kept ? '' : `; mehr bei ${list(o.missed)}`}`;
        case 'shape':
          return `Der Verlauf des Abends${o.kept ? '' : `; weiter weg bei ${list(o.missed)}`}`;
      }
    },
    kept: 'erfüllt',
    notKept: 'nicht erfüllt',
    loudness: 'Lautheit wie gemessen, LUFS',
    density: 'Schichten je Takt, im Mittel',
    shape: 'Platz jedes Tracks unter allen nach beidem; gestrichelt: wie gewünscht',
    atTheEnd: 'wenn der vorige endet',
    onBar: (own, other) => `Takt ${own} auf Takt ${other}`,
    heads: ['', 'Track', 'BPM', 'Tonart', 'LUFS', 'Schichten', 'So kommt er herein'],
  },
};

/** The words in the language of a style; English for any other. */
export const wordsFor = ({ words }: Style): OrderWords => ORDER_WORDS[words.tag === 'de' ? 'de' : 'en'];
