import { barRange, type Bpm } from '../../units/index.js';
import type { Filler, IrregularitySentences, LengthFacts } from '../sentences.js';
import { GERMAN_ARTICLES } from './articles.js';
import { CORE } from './core.js';

const { clock } = CORE;
const NUMBERS = 'kein ein zwei drei vier fünf sechs sieben acht neun zehn elf zwölf'.split(' ');

const { sections: ARTICLES, layers: LAYER_ARTICLES } = GERMAN_ARTICLES;

const FILLED: Readonly<Record<Filler, (bars: string, one: boolean) => string>> = {
  roll: (bars, one) => `ein Wirbel füllt ${one ? 'den ' : 'die '}${bars}`,
  quiet: (bars) => `in ${bars} nimmt sich der Klang zurück`,
  repeat: (bars, one) => `${bars} ${one ? 'geht' : 'gehen'} weiter wie zuvor`,
};

function number(n: number): string {
  return NUMBERS[n] ?? `${n}`;
}

/** @param dative "um zwei Takte", "in zwei Takten" */
function count(n: number, unit: 'bar' | 'beat', dative = false): string {
  if (unit === 'bar')
    return n === 1 ? (dative ? 'einem Takt' : 'einen Takt') : `${number(n)} Takte${dative ? 'n' : ''}`;
  return n === 1 ? (dative ? 'einem Schlag' : 'einen Schlag') : `${number(n)} Schläge${dative ? 'n' : ''}`;
}

function bpm(value: Bpm): string {
  return `${CORE.number(value, 2)} BPM`;
}

function bars(first: number, last: number): string {
  if (first === last) return `Takt ${first}`;
  return last === first + 1 ? `Takte ${first} und ${last}` : `Takte ${barRange(first, last)}`;
}

function subject({ wholeSection, function: f, startBar, endBar }: LengthFacts): string {
  const name = CORE.functions[f];
  if (wholeSection) return `${capital(ARTICLES[f])} ${name} (Takte ${barRange(startBar, endBar)})`;
  return `Die Phrase in Takt ${barRange(startBar, endBar)} (${name})`;
}

function usual({ usualOfTrack, usualBars }: LengthFacts): string {
  return usualOfTrack ? `die ${usualBars} dieses Stücks` : `eine regelmäßige Phrase von ${usualBars}`;
}

function again({ nextBar, nextStart }: LengthFacts): string {
  return `die nächste Phrase beginnt in Takt ${nextBar}, ab ${clock(nextStart)} neu zählen`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export const SENTENCES: IrregularitySentences = {
  added(facts) {
    const surplus = facts.bars - facts.usualBars;
    const extra = bars(facts.endBar - surplus + 1, facts.endBar);
    const one = surplus === 1;
    const what =
      facts.filler === null ? `${extra} ${one ? 'kommt' : 'kommen'} hinzu` : FILLED[facts.filler](extra, one);
    return `${subject(facts)} ist um ${count(surplus, 'bar')} länger als ${usual(facts)}: ${what}; ${again(facts)}.`;
  },
  dropped(facts) {
    const missing = facts.usualBars - facts.bars;
    const early = missing === 1 ? 'am Ende fehlt ein Takt' : `am Ende fehlen ${count(missing, 'bar')}`;
    return `${subject(facts)} ist um ${count(missing, 'bar')} kürzer als ${usual(facts)}: ${early}; ${again(facts)}.`;
  },
  odd(facts) {
    return `${subject(facts)} hat ${count(facts.bars, 'bar')}, wo die Phrasen dieses Stücks ${facts.usualBars} haben, und füllt ihre Vierergruppen nicht; ${again(facts)}.`;
  },
  pickUp({ layers, beats, bar, startTime, time }) {
    const who = layers.length === 0 ? 'etwas' : CORE.list(layers.map((l) => `${LAYER_ARTICLES[l]} ${CORE.layers[l]}`));
    const verb = layers.length > 1 ? 'setzen' : 'setzt';
    return `${capital(who)} ${verb} ${count(beats, 'beat')} vor der Eins von Takt ${bar} ein, bei ${clock(startTime)}: ein Auftakt; die Phrase selbst beginnt auf der Eins, bei ${clock(time)}.`;
  },
  beats({ bar, time, beats, usualBeats, nextBar, nextStart }) {
    const change = Math.abs(beats - usualBeats);
    const off = change === 1 ? 'einen' : number(change);
    const what =
      beats > usualBeats
        ? `${count(beats, 'beat')} statt ${number(usualBeats)}, ${off} zu viel`
        : `nur ${count(beats, 'beat')} statt ${number(usualBeats)}, ${off} zu wenig`;
    const next =
      nextBar === null || nextStart === null
        ? ''
        : `; Takt ${nextBar} folgt bei ${clock(nextStart)}, von dort neu zählen`;
    return `Takt ${bar}, bei ${clock(time)}, hat ${what}${next}.`;
  },
  tempoChange: ({ bar, time, from, to }) =>
    `Ab Takt ${bar}, bei ${clock(time)}, ist das Tempo ${bpm(to)} statt ${bpm(from)}.`,
  drift: ({ lowest, highest }) =>
    `Das Tempo wird von keiner Uhr gehalten: es wandert zwischen ${bpm(lowest)} und ${bpm(highest)}; man folgt den Schlägen, nicht einem Tempo.`,
  halfTime: ({ startBar, endBar, time, counted, felt }) =>
    `${bars(startBar, endBar)}, ab ${clock(time)}, ${startBar === endBar ? 'fühlt' : 'fühlen'} sich halb so schnell an: gezählt mit ${bpm(counted)}, gefühlt mit ${bpm(felt)}.`,
  beatless({ startBar, endBar, time, nextBar, nextStart }) {
    const returns =
      nextBar === null || nextStart === null
        ? 'das bleibt so bis zum Ende'
        : `die Zählung läuft darunter weiter, und der Beat setzt in Takt ${nextBar} ein, bei ${clock(nextStart)}`;
    return `${bars(startBar, endBar)}, ab ${clock(time)}, ${startBar === endBar ? 'hat' : 'haben'} keinen Beat: ${returns}.`;
  },
};
