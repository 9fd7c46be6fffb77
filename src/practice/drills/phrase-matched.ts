import type { MatchPlan, TrackMatch } from '../../matching/index.js';
import type { TrackAnalysis } from '../../track/index.js';
import { rehearse } from '../rehearsal.js';
import { RATE, silence, type Stereo } from '../sound/stereo.js';
import { drawQuestions } from './draw.js';
import { finish, PAUSE, type Drill, type DrillItem, type DrillOptions } from './drill.js';
import { fadeEdges } from './edges.js';

const QUESTIONS = 6;
const HANDOVERS = ['right', 'bar', 'phrase'] as const;
type Handover = (typeof HANDOVERS)[number];
const ANSWERS: Readonly<Record<Handover, string>> = {
  right: 'yes, phrase on phrase',
  bar: 'no, B comes a bar late',
  phrase: 'no, B comes a phrase late',
};
/** Bars of A before its boundary and behind it that are heard: all of a handover would be heard too long. */
const BEFORE = 8;
const BEHIND = 16;

/** Is this phrase-matched: the same handover right, a bar off and a phrase off, in an order by chance. @experimental */
export async function drillPhraseMatched(
  pair: { readonly a: TrackAnalysis; readonly b: TrackAnalysis; readonly match: TrackMatch; readonly plan: MatchPlan },
  options: DrillOptions = {},
): Promise<Drill> {
  const order = drawQuestions(HANDOVERS, QUESTIONS, options.seed ?? 1);
  const parts = new Map<Handover, Stereo>();
  for (const handover of HANDOVERS) parts.set(handover, await middleOf(pair, handover, options));
  const gap = Math.round(PAUSE * RATE);
  const sound = silence(order.reduce((sum, handover) => sum + parts.get(handover)!.left.length + gap, 0));
  let at = 0;
  const items = order.map((handover, i): DrillItem => {
    const { left, right } = parts.get(handover)!;
    sound.left.set(left, at);
    sound.right.set(right, at);
    fadeEdges(sound, at, at + left.length);
    const [from, to] = [at / RATE, (at + left.length) / RATE];
    at += left.length + gap;
    return {
      number: i + 1,
      time: from,
      from,
      to,
      question: 'Is this phrase-matched?',
      answer: ANSWERS[handover],
      reply: { kind: 'choice', right: HANDOVERS.indexOf(handover) },
    };
  });
  const drill = {
    name: 'phrase-matched',
    instruction:
      'You hear the middle of a handover six times. Say each time whether the phrases of both records begin together.',
    choices: HANDOVERS.map((handover) => ANSWERS[handover]),
    beat: 60 / pair.match.tempo.bpm,
    beatsPerBar: pair.a.metre.beatsPerBar,
    items,
  } as const;
  return finish(drill, 'Drill: is this phrase-matched?', sound, options);
}

/** The change-over and what surrounds it. */
async function middleOf(
  { a, b, match, plan }: Parameters<typeof drillPhraseMatched>[0],
  contrast: Handover,
  options: DrillOptions,
): Promise<Stereo> {
  const { sound, clock } = await rehearse(a, b, match, plan, { around: 4, ...options, contrast });
  const bar = a.metre.beatsPerBar * clock.beat;
  const [from, to] = [Math.max(0, clock.swap - BEFORE * bar), Math.min(clock.length, clock.swap + BEHIND * bar)];
  const cut = (samples: Float32Array) => samples.slice(Math.round(from * RATE), Math.round(to * RATE));
  return { left: cut(sound.left), right: cut(sound.right) };
}
