import { GERMAN_ARTICLES } from '../../src/wording/index.js';
import type { PrintWords } from './print-words.js';

const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;
const bars = (n: number): string => count(n, 'Takt', 'Takte');
/** After "mit", "von", "aus". */
const ofBars = (n: number): string => count(n, 'Takt', 'Takten');
const beats = (n: number): string => count(n, 'Schlag', 'Schläge');

const ORDINALS = ['erste', 'zweite', 'dritte', 'vierte', 'fünfte', 'sechste', 'siebte', 'achte', 'neunte', 'zehnte'];
const ordinal = (n: number): string => ORDINALS[n - 1] ?? `${n}.`;

const { sections: SECTION_ARTICLES, layers: LAYER_ARTICLES } = GERMAN_ARTICLES;

/** The count as people say it: the first word of each bar is its number in the group. */
function spoken(beatsPerBar: number): string {
  const rest = Array.from({ length: beatsPerBar - 1 }, (_, i) => ` ${i + 2}`).join('');
  return [1, 2, 3, 4].map((bar) => `${bar}${rest}`).join(', ');
}

export const GERMAN_PRINT: PrintWords = {
  documents: {
    card: (what) => `Strukturkarte: ${what}`,
    lesson: (what) => `Schaubild: ${what}`,
    comparison: (one, other) => `Zwei Stücke im Vergleich: ${one} und ${other}`,
    worksheet: (what) => `Arbeitsblatt: ${what}`,
    tracks: (n) => count(n, 'Stück', 'Stücke'),
  },
  back: {
    ones: 'Die Einsen, Phrase für Phrase',
    landmarks: 'Am Klang zu erkennen',
    notes: 'Notizen',
    columns: { one: 'Takt', section: 'Abschnitt', bars: 'Länge', elapsed: 'vorbei', left: 'Rest' },
    sectionBars: (name, span) => `${name}, ${span}`,
  },
  legend: {
    rows: (phraseBars, beatsPerBar) =>
      `Zeile: Phrase · Feld: Takt${beatsPerBar === 4 ? '' : ` zu ${beatsPerBar} Schlägen`} · dicke Linie: alle vier · ` +
      `Kante: ${bars(phraseBars)}`,
    faint: 'gestrichelt: leise',
    faintShort: '- - leise',
  },
  sheet: {
    front: 'Vorderseite',
    back: 'Rückseite',
    longEdge: 'langen Seite',
    shortEdge: 'kurzen Seite',
    foot: (sheet, of, side, edge) => `Bogen ${sheet} von ${of}, ${side} · 100 %, an der ${edge} wenden`,
  },
  index: {
    tempo: 'Verzeichnis nach Tempo',
    key: 'Verzeichnis nach Tonart',
    name: 'Verzeichnis nach Titel',
    columns: { number: 'Karte', name: 'Titel', tempo: 'BPM', key: 'Tonart', length: 'Länge' },
  },
  warnings: {
    missingGlyphs: (n) =>
      `In Titel, Name oder Datei ${n === 1 ? 'fehlt 1 Zeichen' : `fehlen ${n} Zeichen`} in den vorhandenen Schriften; gedruckt wird ein leeres Kästchen.`,
    titleShortened: 'Titel oder Name ist zu lang für die Vorderseite und steht hinten in voller Länge.',
    rightToLeft:
      'Für die Schrift dieses Titels, die von rechts nach links läuft, ist keine Schriftart da; dafür steht der Dateiname.',
    noQuestions: 'Von diesem Stück ist zu wenig sicher, um danach zu fragen: dafür gibt es kein Arbeitsblatt.',
    unnamed: (id) => `Stück ${id}`,
  },
  lesson: {
    howToCount: 'So zählt man',
    howToRead: 'So liest man es',
    counting: (n) => `Man sagt „${spoken(n)}“: das erste Wort jedes Takts ist seine Nummer in der Vierergruppe.`,
    reading: (n) =>
      `Jede Zeile ist eine Phrase, jedes Feld ein Takt; dicke Linien trennen die Vierergruppen. Die Kante steht bei ${ofBars(n)}, der üblichen Phrase.`,
    odd: (n) => `Was über die Kante ragt, ist länger als ${bars(n)}; offene Felder sind Takte, die fehlen.`,
    landmarks: 'Worauf man hört',
    breaks: 'Wo es aus seinem Muster fällt',
    goesOn: 'Fortsetzung',
    compared: 'Nebeneinander',
    sameTempo: 'gleich',
    rows: {
      tempo: 'Tempo',
      key: 'Tonart',
      length: 'Länge',
      phrase: 'übliche Phrase',
      mixIn: 'Raum zum Einmischen',
      mixOut: 'Raum zum Ausmischen',
      drop: 'erster Drop',
      breaks: 'Brüche im Muster',
      regular: 'regelmäßige Phrasen',
    },
    none: 'keine',
    places: (n) => count(n, 'Stelle', 'Stellen'),
    of: (n, all) => `${bars(n)}, ${beats(all)}`,
    at: (bar, time) => `Takt ${bar}, ${time}`,
  },
  worksheet: {
    title: 'Arbeitsblatt',
    key: 'Lösungen',
    nameLine: 'Name',
    dateLine: 'Datum',
    level: (n) => `Stufe ${n}`,
    instructions: {
      1: 'Jede Zeile unten ist so lang wie die übliche Phrase, was immer das Stück tut. Spiele es ab und fülle die Leiter aus: schreibe links den Namen jedes Abschnitts und zieh eine Linie durch die Takte, in denen eine Ebene spielt.',
      2: 'Im Raster unten hat jede Zeile die Länge der üblichen Phrase. Spiele das Stück ab, markiere die Eins jeder Phrase und verbessere das Raster, wo das Stück sich nicht daran hält.',
      3: 'Das Raster unten ist leer: nummeriere die Takte beim Zählen. Markiere die Eins jeder Phrase und jede Stelle, an der man neu zu zählen beginnt.',
    },
    caution:
      'Höre so leise, dass man sich im Raum noch unterhalten kann: lauter Schall schadet dem Gehör auf Dauer, und ein Klick im Kopfhörer ist schnell zu laut. Mach Pausen, halte dich an die Regeln vor Ort und frage Fachleute (Ohrenarzt, betrieblicher Gesundheitsdienst), wenn die Ohren klingeln oder taub sind.',
    layer: (layer, name) => `${LAYER_ARTICLES[layer]} ${name}`,
    section: (value, name) => `${SECTION_ARTICLES[value]} ${name}`,
    ask: {
      change: (layer, change) =>
        `In welchem Takt ${change === 'enters' ? 'kommt' : 'geht'} ${layer} zum ersten Mal ${change === 'enters' ? 'rein' : 'raus'}?`,
      sectionStart: (value, name) =>
        value === 'drop' ? 'Wo setzt der Drop ein? Nenne Takt und Zeit.' : `Wo beginnt ${name}? Nenne Takt und Zeit.`,
      phraseLength: (n) => `Wie viele Takte hat die ${ordinal(n)} Phrase?`,
      heard: (bar) => `Welche Ebenen hörst du ab Takt ${bar}?`,
      usualPhrase: 'Wie viele Takte hat die übliche Phrase dieses Stücks, und wie viele Schläge?',
      oddPhrase: 'Finde die ungerade Phrase: welche ist es, und wie viele Takte hat sie zu viel oder zu wenig?',
      breaks: 'Hat jede Phrase die übliche Länge? Wenn nicht: ab welchem Takt zählst du neu?',
      ones: 'Markiere die Eins jeder Phrase. In welchen Takten liegen sie?',
      room: (value, name) =>
        value === 'intro'
          ? `Wie viel Raum ist zum Einmischen: wie lang ist ${name}, in Takten und als Zeit?`
          : `Wenn ${name} beginnt: wie viel vom Stück bleibt noch, in Takten und als Zeit?`,
      beatsBetween: (from, to) =>
        `Wie viele Schläge sind es vom Beginn des Abschnitts ${from} bis zum Beginn von ${to}?`,
      startNext: (n, section) =>
        `Die nächste Platte hat ein Intro von ${ofBars(n)}. In welchem Takt startest du sie, damit ihr Intro genau dann endet, wenn ${section} beginnt?`,
      faster: (bpm, section) => `Wie lange würde ${section} bei ${bpm} BPM dauern?`,
      oddBar: () =>
        'Ein Takt hat mehr oder weniger Schläge als alle anderen. Welcher ist es, und wie viele Schläge hat er?',
      countAt: (bar) =>
        `Du zählst laut vom Anfang der Phrase. Welche Zahl sagst du auf dem ersten Schlag von Takt ${bar}?`,
      clockAt: (time) =>
        `Der Player zeigt ${time}. Im wievielten Takt seiner Phrase ist das Stück, und wie lang ist sie?`,
    },
    tell: {
      oddBar: (bar, n) => `Takt ${bar}: ${beats(n)}; ab Takt ${bar + 1} neu zählen`,
      inPhrase: (phraseBar, phraseBars, bar) => `im ${phraseBar}. von ${phraseBars}: Takt ${bar} des Stücks`,
      place: (bar, time) => `Takt ${bar}, ${time}`,
      length: (n, all) => `${bars(n)}, ${beats(all)}`,
      odd: (n, length, usual, again) =>
        `die ${ordinal(n)}: ${bars(length)}, ${Math.abs(length - usual)} zu ${length > usual ? 'viel' : 'wenig'}` +
        (again === null ? '' : `; ab Takt ${again} neu zählen`),
      noOdd: 'jede Phrase hat die übliche Länge',
      ones: (list) => `${list.length === 1 ? 'Takt' : 'Takte'} ${list.join(', ')}`,
      room: (n, time) => `${bars(n)}, ${time}`,
      count: (bar, group) => `„${bar}“: es ist Takt ${bar} seiner Vierergruppe (Takt ${group})`,
      lasts: (time) => time,
    },
  },
};
