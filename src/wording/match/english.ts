import { barRange, clock } from '../../units/index.js';
import { CORE } from '../english/core.js';
import type { KeyRelation, MatchRemark } from './remarks.js';
import type { MatchWords } from './words.js';

const { bars, beats, number, percent, layers, functions } = CORE;
const deck = (d: 'a' | 'b') => d.toUpperCase();
const signed = (value: number, decimals: number) => `${value >= 0 ? '+' : ''}${number(value, decimals, 'fixed')}`;
const MOMENT = { ...functions, end: 'end', start: 'first bar' } as const;
const SUBJECT = {
  tempo: 'its tempo',
  beat: 'where its beat falls',
  downbeat: 'which beat is the one of its bars',
  phrase: 'where its phrases start',
  section: 'what its sections are',
} as const;
const RELATION: Readonly<Record<Exclude<KeyRelation, 'other'>, string>> = {
  same: 'the keys are the same',
  relative: 'the keys are relative: the same notes',
  fifth: 'the keys lie a fifth apart: they share all notes but one',
  parallel: 'the keys are parallel: one tonic, major against minor',
};

function keySentence(r: Extract<MatchRemark, { kind: 'key' }>): string {
  const what =
    r.relation === 'other'
      ? `the keys lie ${r.fifths} ${r.fifths === 1 ? 'step' : 'steps'} apart on the circle of fifths`
      : RELATION[r.relation];
  const off = Math.abs(r.cents) < 8 ? '' : `, ${Math.abs(Math.round(r.cents))} cents out of tune`;
  return `With key lock ${r.locked ? 'on' : 'off'} ${what}${off}.`;
}

function effectSentence(r: Extract<MatchRemark, { kind: 'irregular-in-overlap' }>): string {
  const does = {
    none: 'Both counts still agree.',
    'phrases-part': 'The bars stay together, but the phrases part from there on.',
    'ones-part': 'The ones part from there on: hand over before it.',
    absorbed: 'The start is set so that both counts agree again after it.',
    nudge: 'Keep a hand on the record and nudge it.',
  }[r.effect];
  return `In the overlap, record ${deck(r.deck)}: ${r.sentence} ${does}`;
}

function meeting(r: Extract<MatchRemark, { kind: 'layer-clash' | 'layer-may-clash' }>): string {
  return `${layers[r.layer]} against ${layers[r.layer]} in A's ${r.bars === 1 ? 'bar' : 'bars'} ${barRange(r.fromA, r.toA)}`;
}

function clash(r: Extract<MatchRemark, { kind: 'layer-clash' }>): string {
  const where = meeting(r);
  const remedy = {
    'cut-b': `hold B's ${layers[r.layer]} back until the swap`,
    'cut-a': `keep A's ${layers[r.layer]} out after the swap`,
    none: 'turn one of them down there, or take another plan',
  }[r.remedy];
  return `${where.charAt(0).toUpperCase()}${where.slice(1)}: ${remedy}.`;
}

function unsure({ value, deck: d, subject, surer }: Extract<MatchRemark, { kind: 'start-unsure' }>): string {
  const why =
    value === null
      ? `${SUBJECT[subject]} cannot be judged for ${deck(d)}`
      : `${SUBJECT[subject]} is only ${percent(value)} sure for ${deck(d)}`;
  return surer === null
    ? `No start is surely borne out here: ${why}. Count both records through before you rely on this one.`
    : `This start is not surely borne out: ${why}. Plan ${surer} rests on surer answers.`;
}

function remark(r: MatchRemark): string {
  switch (r.kind) {
    case 'phrase-on-phrase':
      return `Phrase one on phrase one: B's bar ${r.barB} on A's bar ${r.barA}.`;
    case 'group-on-phrase':
      return `B's phrase one (bar ${r.barB}) falls on A's bar ${r.barA}, which is bar ${r.phraseBar} of A's phrase.`;
    case 'moments-meet':
      return r.functionB === 'drop'
        ? `B's drop lands (bar ${r.barB}) where A's ${MOMENT[r.functionA]} comes (bar ${r.barA}).`
        : `B's ${MOMENT[r.functionB]} (bar ${r.barB}) comes where A's ${MOMENT[r.functionA]} comes (bar ${r.barA}).`;
    case 'phrases-agree':
      return `${r.agree} of ${r.of} phrase starts in the overlap fall together.`;
    case 'bass-free':
      return `No bass against bass in ${r.bars === 1 ? 'the one bar' : `all ${bars(r.bars)}`} of the overlap.`;
    case 'layer-clash':
      return clash(r);
    case 'layer-may-clash':
      return `Perhaps ${meeting(r)}: one of them is not surely there. Listen first.`;
    case 'layer-unjudged':
      return `Whether ${r.layer === 'voice' ? 'voices' : layers[r.layer]} meet cannot be judged in ${bars(r.bars)}: listen first.`;
    case 'tempo-change':
      return `Tempo of ${deck(r.deck)}: ${signed(r.percent, 2)} % (${signed(r.semitones, 2)} semitones with key lock off).`;
    case 'tempo-ratio':
      return `${number(r.bpmA, 2)} and ${number(r.bpmB, 2)} BPM: ${
        r.ratio > 1 ? 'two beats of B go on one of A' : 'one beat of B goes on two of A'
      }.`;
    case 'key':
      return keySentence(r);
    case 'key-unknown':
      return `The key of ${deck(r.deck)} is not sure enough to judge how the keys go together.`;
    case 'louder':
      return `${deck(r.deck)} is ${number(r.lu, 1)} LU louder: turn it down by ${number(r.lu, 1)} dB.`;
    case 'loudness-unknown':
      return `The loudness of ${deck(r.deck)} could not be measured: set the gain by ear.`;
    case 'ones-apart':
      return `In A's bars ${barRange(r.fromA, r.toA)} B's ones come ${beats(Math.abs(r.beats))} ${r.beats > 0 ? 'late' : 'early'}.`;
    case 'irregular-in-overlap':
      return effectSentence(r);
    case 'no-irregularity':
      return 'Neither record leaves its pattern in the overlap.';
    case 'avoids-irregularity':
      return `It stays clear of bar ${r.bar} of ${deck(r.deck)}, where that record leaves its pattern.`;
    case 'drifts':
      return `${deck(r.deck)} drifts: the beats part by up to ${Math.round(r.milliseconds)} ms; nudge it as you go.`;
    case 'early-in-a':
      return `A has played only to ${clock(r.time)}: much of it stays unheard.`;
    case 'late-in-b':
      return `B starts in its middle, at bar ${r.bar}.`;
    case 'tempo-out-of-range':
      return `The tempos lie ${number(r.percent, 1)} % apart, more than the ±${number(r.range, 1)} % of the fader: let A end, then start B.`;
    case 'metres-differ':
      return `A has ${r.a} beats to the bar and B ${r.b}: they cannot be mixed bar on bar.`;
    case 'no-common-phrase':
      return "No phrase of B fits on A's count with room for an overlap.";
    case 'start-unsure':
      return unsure(r);
    case 'confidence':
      return r.value === null
        ? `How sure this is cannot be judged: ${SUBJECT[r.subject]} could not be judged for ${deck(r.deck)}.`
        : `This plan rests on answers that are at least ${percent(r.value)} sure; the weakest is ${SUBJECT[r.subject]} for ${deck(r.deck)}.`;
  }
}

/** English. */
export const MATCH_ENGLISH: MatchWords = {
  remark,
  start: (f) =>
    `Start ${f.nameB} on the one of ${f.phraseOne ? 'a phrase of A' : 'A'}: A's bar ${f.barA}, ${clock(f.timeA)}` +
    `${f.countInFrom === null ? '' : `; count in four bars from ${f.countInFrom}`}. B starts at its bar ${f.barB}, ${clock(f.timeB)}.`,
  cut: (f) => `Start ${f.nameB} at its bar ${f.barB} (${clock(f.timeB)}) as A ends, at ${clock(f.timeA)}; no overlap.`,
  overlap: (total, before, after) =>
    `The overlap: ${bars(total)} of A, ${before} before the change-over and ${after} after it.`,
  actions: { 'start-b': 'start B', 'bass-swap': 'swap the bass', 'change-over': 'B leads', 'a-out': 'A is out' },
  headings: {
    plan: 'Plan',
    others: 'Other ways',
    ones: 'On each one',
    why: 'Why',
    against: 'Mind',
    barsLeft: 'bars left',
    timeLeft: 'time left',
    happensA: 'A',
    happensB: 'B',
    do: 'do',
    order: 'Running order',
  },
  nothing: 'goes on',
};
