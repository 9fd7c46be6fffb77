import type { PrintWords } from './print-words.js';

const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;
const bars = (n: number): string => count(n, 'bar');
const beats = (n: number): string => count(n, 'beat');

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];
const ordinal = (n: number): string => ORDINALS[n - 1] ?? `${n}${['th', 'st', 'nd', 'rd'][ending(n)]}`;
const ending = (n: number): number => (n % 10 <= 3 && Math.floor((n % 100) / 10) !== 1 ? n % 10 : 0);

/** The count as people say it: the first word of each bar is its number in the group. */
function spoken(beatsPerBar: number): string {
  const rest = Array.from({ length: beatsPerBar - 1 }, (_, i) => ` ${i + 2}`).join('');
  return [1, 2, 3, 4].map((bar) => `${bar}${rest}`).join(', ');
}

export const ENGLISH_PRINT: PrintWords = {
  documents: {
    card: (what) => `Structure card: ${what}`,
    lesson: (what) => `Lesson diagram: ${what}`,
    comparison: (one, other) => `Two tracks compared: ${one} and ${other}`,
    worksheet: (what) => `Worksheet: ${what}`,
    tracks: (n) => `${n} tracks`,
  },
  back: {
    ones: 'The ones, phrase by phrase',
    landmarks: 'To recognise by ear',
    notes: 'Notes',
    columns: { one: 'bar', section: 'section', bars: 'length', elapsed: 'elapsed', left: 'left' },
    sectionBars: (name, span) => `${name}, ${span}`,
  },
  legend: {
    rows: (phraseBars, beatsPerBar) =>
      `row: phrase · cell: bar${beatsPerBar === 4 ? '' : ` of ${beats(beatsPerBar)}`} · heavy line: every four · ` +
      `ruled edge: ${bars(phraseBars)}`,
    faint: 'dashes: faint',
    faintShort: '- - faint',
  },
  sheet: {
    front: 'front',
    back: 'back',
    longEdge: 'long edge',
    shortEdge: 'short edge',
    foot: (sheet, of, side, edge) => `Sheet ${sheet} of ${of}, ${side} · at 100 %, turn on the ${edge}`,
  },
  index: {
    tempo: 'Index by tempo',
    key: 'Index by key',
    name: 'Index by name',
    columns: { number: 'card', name: 'title', tempo: 'BPM', key: 'key', length: 'length' },
  },
  warnings: {
    missingGlyphs: (n) =>
      `In title, artist or file name ${n === 1 ? '1 character has' : `${n} characters have`} no glyph in the fonts at hand; each is printed as an empty box.`,
    titleShortened: 'The title or artist is too long for the front and stands in full on the back.',
    rightToLeft:
      'There is no font for the script of this title, which runs from right to left; the name of the file stands for it.',
    noQuestions: 'Too little is sure about this track to ask about it: there is no worksheet for it.',
    unnamed: (id) => `track ${id}`,
  },
  lesson: {
    howToCount: 'How to count',
    howToRead: 'How to read it',
    counting: (n) => `Say “${spoken(n)}”: the first word of each bar is its number in the group of four.`,
    reading: (n) =>
      `Each row is a phrase, each cell a bar; heavy lines part the groups of four. The ruled edge stands at ${bars(n)}, the usual phrase.`,
    odd: (n) => `A row that runs past the edge is longer than ${bars(n)}; open cells are bars that are missing.`,
    landmarks: 'Listen for',
    breaks: 'Where it leaves its pattern',
    goesOn: 'continued',
    compared: 'Side by side',
    sameTempo: 'the same',
    rows: {
      tempo: 'tempo',
      key: 'key',
      length: 'length',
      phrase: 'usual phrase',
      mixIn: 'room to mix in',
      mixOut: 'room to mix out',
      drop: 'first drop',
      breaks: 'breaks in the pattern',
      regular: 'regular phrases',
    },
    none: 'none',
    places: (n) => count(n, 'place'),
    of: (n, all) => `${bars(n)}, ${beats(all)}`,
    at: (bar, time) => `bar ${bar}, ${time}`,
  },
  worksheet: {
    title: 'Worksheet',
    key: 'Answer key',
    nameLine: 'Name',
    dateLine: 'Date',
    level: (n) => `level ${n}`,
    instructions: {
      1: 'Every row below is as long as the usual phrase, whatever the track does. Play the track and fill the ladder in: write the name of each section at the left, and draw a line through the bars in which a layer plays.',
      2: 'The grid below has the usual phrase in every row. Play the track, mark the one of every phrase, and correct the grid where the track does not keep to it.',
      3: 'The grid below is bare: number its bars as you count. Mark the one of every phrase and every place where you have to count from one again.',
    },
    caution:
      'Listen at a level at which you can still talk across the room: loud sound harms hearing for good, and a click in headphones is easily too loud. Take breaks, keep to the rules where you play, and ask a qualified person (an audiologist, an occupational health service) if your ears ring or feel dull.',
    layer: (_layer, name) => `the ${name}`,
    section: (_value, name) => `the ${name}`,
    ask: {
      change: (layer, change) => `On which bar does ${layer} first ${change === 'enters' ? 'come in' : 'drop out'}?`,
      sectionStart: (value, name) =>
        value === 'drop'
          ? 'Where does the drop land? Give bar and time.'
          : `Where does ${name} begin? Give bar and time.`,
      phraseLength: (n) => `How many bars has the ${ordinal(n)} phrase?`,
      heard: (bar) => `Which layers do you hear from bar ${bar} on?`,
      usualPhrase: 'How many bars has the usual phrase of this track, and how many beats?',
      oddPhrase: 'Find the odd phrase: which one is it, and how many bars has it too many or too few?',
      breaks: 'Does every phrase keep to the usual length? If not, from which bar do you count again?',
      ones: 'Mark the one of every phrase. On which bars do they fall?',
      room: (value, name) =>
        value === 'intro'
          ? `How much room is there to mix in: how long is ${name}, in bars and in time?`
          : `When ${name} begins, how much of the track is left, in bars and in time?`,
      beatsBetween: (from, to) => `How many beats are there from the start of the ${from} to the start of the ${to}?`,
      startNext: (n, section) =>
        `The next record has an intro of ${bars(n)}. On which bar of this one do you start it, so that its intro ends just as ${section} begins?`,
      faster: (bpm, section) => `How long would ${section} last at ${bpm} BPM?`,
      oddBar: () => 'One bar has more or fewer beats than all the others. Which one is it, and how many beats has it?',
      countAt: (bar) =>
        `You count aloud from the start of the phrase. Which number do you say on the first beat of bar ${bar}?`,
      clockAt: (time) =>
        `The player shows ${time}. In which bar of its phrase is the track, and how many bars has that phrase?`,
    },
    tell: {
      oddBar: (bar, n) => `bar ${bar}: ${beats(n)}; count again from bar ${bar + 1}`,
      inPhrase: (phraseBar, phraseBars, bar) => `the ${ordinal(phraseBar)} of ${phraseBars}: bar ${bar} of the track`,
      place: (bar, time) => `bar ${bar}, ${time}`,
      length: (n, all) => `${bars(n)}, ${beats(all)}`,
      odd: (n, length, usual, again) =>
        `the ${ordinal(n)}: ${bars(length)}, ${Math.abs(length - usual)} too ${length > usual ? 'many' : 'few'}` +
        (again === null ? '' : `; count again from bar ${again}`),
      noOdd: 'every phrase keeps to it',
      ones: (list) => `bars ${list.join(', ')}`,
      room: (n, time) => `${bars(n)}, ${time}`,
      count: (bar, group) => `“${bar}”: it is bar ${bar} of its group (bars ${group})`,
      lasts: (time) => time,
    },
  },
};
