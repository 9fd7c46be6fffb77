import { barRange } from '../../units/index.js';
import { CORE } from '../german/core.js';
import type { KeyRelation, MatchRemark } from './remarks.js';
import type { MatchWords } from './words.js';

const { bars, beats, number, percent, layers, functions, clock } = CORE;
const deck = (d: 'a' | 'b') => d.toUpperCase();
const signed = (value: number, decimals: number) => `${value >= 0 ? '+' : ''}${number(value, decimals, 'fixed')}`;
const MOMENT = { ...functions, end: 'Ende', start: 'erster Takt' } as const;
const SUBJECT = {
  tempo: 'das Tempo',
  beat: 'die Lage der Schläge',
  downbeat: 'die Eins der Takte',
  phrase: 'der Beginn der Phrasen',
  section: 'die Abschnitte',
} as const;
const RELATION: Readonly<Record<Exclude<KeyRelation, 'other'>, string>> = {
  same: 'sind die Tonarten gleich',
  relative: 'sind es Paralleltonarten: dieselben Töne',
  fifth: 'liegen die Tonarten eine Quinte auseinander: alle Töne bis auf einen sind gleich',
  parallel: 'sind es Varianttonarten: ein Grundton, Dur gegen Moll',
};

function keySentence(r: Extract<MatchRemark, { kind: 'key' }>): string {
  const what =
    r.relation === 'other'
      ? `liegen die Tonarten ${r.fifths} ${r.fifths === 1 ? 'Schritt' : 'Schritte'} auf dem Quintenzirkel auseinander`
      : RELATION[r.relation];
  const off = Math.abs(r.cents) < 8 ? '' : `, um ${Math.abs(Math.round(r.cents))} Cent verstimmt`;
  return `${r.locked ? 'Mit' : 'Ohne'} Tonhöhensperre ${what}${off}.`;
}

function effectSentence(r: Extract<MatchRemark, { kind: 'irregular-in-overlap' }>): string {
  const does = {
    none: 'Beide Zählungen stimmen weiter überein.',
    'phrases-part': 'Die Takte bleiben zusammen, aber die Phrasen gehen von da an auseinander.',
    'ones-part': 'Die Einsen gehen von da an auseinander: vorher übergeben.',
    absorbed: 'Der Start ist so gesetzt, dass beide Zählungen danach wieder übereinstimmen.',
    nudge: 'Eine Hand an der Platte lassen und nachschieben.',
  }[r.effect];
  return `In der Überlappung, Platte ${deck(r.deck)}: ${r.sentence} ${does}`;
}

function meeting(r: Extract<MatchRemark, { kind: 'layer-clash' | 'layer-may-clash' }>): string {
  return `${layers[r.layer]} gegen ${layers[r.layer]} in ${r.bars === 1 ? 'Takt' : 'den Takten'} ${barRange(r.fromA, r.toA)} von A`;
}

function clash(r: Extract<MatchRemark, { kind: 'layer-clash' }>): string {
  const where = meeting(r);
  const remedy = {
    'cut-b': `${layers[r.layer]} von B bis zum Tausch zurückhalten`,
    'cut-a': `${layers[r.layer]} von A nach dem Tausch draußen lassen`,
    none: 'dort eines leiser drehen oder einen anderen Plan nehmen',
  }[r.remedy];
  return `${where.charAt(0).toUpperCase()}${where.slice(1)}: ${remedy}.`;
}

function unsure({ value, deck: d, subject, surer }: Extract<MatchRemark, { kind: 'start-unsure' }>): string {
  const sure = value === null ? 'nicht zu beurteilen' : `nur zu ${percent(value)} sicher`;
  const verb = subject === 'section' ? 'sind' : 'ist';
  const why = `bei ${deck(d)} ${verb} ${SUBJECT[subject]} ${sure}`;
  return surer === null
    ? `Hier ist kein Start sicher belegt: ${why}. Beide Platten durchzählen, bevor du dich darauf verlässt.`
    : `Dieser Start ist nicht sicher belegt: ${why}. Plan ${surer} ruht auf sichereren Antworten.`;
}

function remark(r: MatchRemark): string {
  switch (r.kind) {
    case 'phrase-on-phrase':
      return `Phrase auf Phrase: Takt ${r.barB} von B auf Takt ${r.barA} von A.`;
    case 'group-on-phrase':
      return `Die Phrase von B (Takt ${r.barB}) fällt auf Takt ${r.barA} von A, den ${r.phraseBar}. Takt seiner Phrase.`;
    case 'moments-meet':
      return r.functionB === 'drop'
        ? `Der Drop von B (Takt ${r.barB}) setzt ein, wo bei A ${MOMENT[r.functionA]} kommt (Takt ${r.barA}).`
        : `${MOMENT[r.functionB]} von B (Takt ${r.barB}) kommt, wo bei A ${MOMENT[r.functionA]} kommt (Takt ${r.barA}).`;
    case 'phrases-agree':
      return `${r.agree} von ${r.of} Phrasenanfängen in der Überlappung fallen zusammen.`;
    case 'bass-free':
      return `In der ganzen Überlappung (${bars(r.bars)}) steht kein Bass gegen Bass.`;
    case 'layer-clash':
      return clash(r);
    case 'layer-may-clash':
      return `Vielleicht ${meeting(r)}: eines davon ist nicht sicher da. Vorher anhören.`;
    case 'layer-unjudged':
      return `Ob ${layers[r.layer]} auf ${layers[r.layer]} trifft, ist für ${bars(r.bars)} nicht zu beurteilen: vorher anhören.`;
    case 'tempo-change':
      return `Tempo von ${deck(r.deck)}: ${signed(r.percent, 2)} % (${signed(r.semitones, 2)} Halbtöne ohne Tonhöhensperre).`;
    case 'tempo-ratio':
      return `${number(r.bpmA, 2)} und ${number(r.bpmB, 2)} BPM: ${
        r.ratio > 1 ? 'zwei Schläge von B auf einen von A' : 'ein Schlag von B auf zwei von A'
      }.`;
    case 'key':
      return keySentence(r);
    case 'key-unknown':
      return `Die Tonart von ${deck(r.deck)} ist zu unsicher, um den Zusammenklang zu beurteilen.`;
    case 'louder':
      return `${deck(r.deck)} ist ${number(r.lu, 1)} LU lauter: um ${number(r.lu, 1)} dB leiser drehen.`;
    case 'loudness-unknown':
      return `Die Lautheit von ${deck(r.deck)} war nicht zu messen: nach Gehör einpegeln.`;
    case 'ones-apart':
      return `In den Takten ${barRange(r.fromA, r.toA)} von A kommen die Einsen von B ${beats(Math.abs(r.beats))} zu ${r.beats > 0 ? 'spät' : 'früh'}.`;
    case 'irregular-in-overlap':
      return effectSentence(r);
    case 'no-irregularity':
      return 'Keine der Platten verlässt in der Überlappung ihr Muster.';
    case 'avoids-irregularity':
      return `Takt ${r.bar} von ${deck(r.deck)}, wo die Platte ihr Muster verlässt, bleibt draußen.`;
    case 'drifts':
      return `${deck(r.deck)} treibt: die Schläge gehen bis zu ${Math.round(r.milliseconds)} ms auseinander; nachschieben.`;
    case 'early-in-a':
      return `A ist erst bis ${clock(r.time)} gelaufen: vieles bleibt ungehört.`;
    case 'late-in-b':
      return `B beginnt in der Mitte, bei Takt ${r.bar}.`;
    case 'tempo-out-of-range':
      return `Die Tempi liegen ${number(r.percent, 1)} % auseinander, mehr als die ±${number(r.range, 1)} % des Reglers: A enden lassen, dann B starten.`;
    case 'metres-differ':
      return `A hat ${r.a} Schläge im Takt und B ${r.b}: Takt auf Takt geht das nicht.`;
    case 'no-common-phrase':
      return 'Keine Phrase von B passt mit genug Überlappung auf die Zählung von A.';
    case 'start-unsure':
      return unsure(r);
    case 'confidence':
      return r.value === null
        ? `Wie sicher das ist, lässt sich nicht sagen: bei ${deck(r.deck)} ist nicht zu beurteilen: ${SUBJECT[r.subject]}.`
        : `Der Plan ruht auf Antworten, die mindestens zu ${percent(r.value)} sicher sind; am schwächsten: ${SUBJECT[r.subject]} bei ${deck(r.deck)}.`;
  }
}

/** German. */
export const MATCH_GERMAN: MatchWords = {
  remark,
  start: (f) =>
    `${f.nameB} auf der Eins ${f.phraseOne ? 'einer Phrase ' : ''}von A starten: Takt ${f.barA}, ${clock(f.timeA)}` +
    `${f.countInFrom === null ? '' : `; vier Takte ab ${f.countInFrom} einzählen`}. B beginnt mit Takt ${f.barB}, ${clock(f.timeB)}.`,
  cut: (f) =>
    `${f.nameB} ab Takt ${f.barB} (${clock(f.timeB)}) starten, wenn A endet, bei ${clock(f.timeA)}; ohne Überlappung.`,
  overlap: (total, before, after) =>
    `Die Überlappung: ${bars(total)} von A, ${before} vor der Übergabe und ${after} danach.`,
  actions: { 'start-b': 'B starten', 'bass-swap': 'Bass tauschen', 'change-over': 'B führt', 'a-out': 'A ist raus' },
  headings: {
    plan: 'Plan',
    others: 'Andere Wege',
    ones: 'Auf jeder Eins',
    why: 'Warum',
    against: 'Achtung',
    barsLeft: 'Takte übrig',
    timeLeft: 'Zeit übrig',
    happensA: 'A',
    happensB: 'B',
    do: 'tun',
    order: 'Reihenfolge',
  },
  nothing: 'läuft weiter',
};
