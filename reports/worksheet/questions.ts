import { createHash } from 'node:crypto';
import type { TrackAnalysis } from '../../src/index.js';
import type { Style } from '../theme/index.js';
import { beatsBetween, clockAt, countAt, faster, startNext } from './ask-count.js';
import { enters, heard, leaves, room, sectionStart } from './ask-layers.js';
import { breaks, oddBar, oddPhrases, ones, phraseLength, usualPhrase } from './ask-phrases.js';
import type { Maker, Question, Source } from './source.js';

export type { Question } from './source.js';

/** 1: hear layers and sections; 2: phrases; 3: counting, planning ahead. @public */
export const LEVELS = [1, 2, 3] as const;
/** One of `LEVELS`. @public */
export type Level = (typeof LEVELS)[number];

const MAKERS: Readonly<Record<Level, readonly Maker[]>> = {
  1: [
    enters(['bass', 'harmony']),
    sectionStart(['drop', 'breakdown']),
    heard,
    room('intro'),
    leaves,
    sectionStart(['outro', 'build-up', 'main']),
  ],
  2: [usualPhrase, oddPhrases, ones, phraseLength, room('outro'), enters(['voice', 'percussion'])],
  3: [breaks, oddBar, beatsBetween, startNext, clockAt, countAt, faster, ones],
};

/**
 * Questions about a track that its analysis is sure enough to answer, from easy to hard.
 * @param most at most so many @param variant other layers, phrases and bars for another sheet
 */
export function questionsAbout(
  track: TrackAnalysis,
  style: Style,
  level: Level,
  most: number,
  variant: number,
): readonly Question[] {
  const pick: Source['pick'] = (list, what) => {
    const text = `${track.source.audioDigest} ${level} ${variant} ${what}`;
    const hash = parseInt(createHash('sha256').update(text).digest('hex').slice(0, 8), 16);
    return list[hash % list.length];
  };
  const source = { track, style, pick };
  return MAKERS[level].flatMap((make) => make(source) ?? []).slice(0, most);
}
