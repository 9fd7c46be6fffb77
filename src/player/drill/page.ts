import { encodeAudio } from '../../arranger/index.js';
import type { Drill } from '../../practice/index.js';
import type { RunOptions } from '../../units/index.js';
import { pageAssets } from '../assets.js';
import { pageFrame } from '../frame.js';
import type { DrillData, DrillQuestion } from './data.js';
import { drillBody } from './skeleton.js';

/** Rate of practice audio. */
const RATE = 44_100;

/**
 * A drill as one HTML page that holds its sound: it plays each question, takes the answer by a key, says whether it is right,
 * and gives the score at the end. It works from a file, offline, and asks for nothing.
 *
 * Where a few milliseconds are the question, the sound is FLAC, which every sample comes out of as it went in; long stretches of
 * music are MP3, so that the page stays small.
 * @throws BarwiseError `missing-package`, `aborted`
 */
export async function renderDrill(drill: Drill, options: RunOptions = {}): Promise<string> {
  const format = drill.name === 'phrase-matched' ? 'mp3' : 'flac';
  const questions: DrillQuestion[] = [];
  for (const { question, answer, reply, from, to } of drill.items) {
    const cut = (samples: Float32Array) => samples.slice(Math.round(from * RATE), Math.round(to * RATE));
    const parts = await encodeAudio(format, { left: cut(drill.sound.left), right: cut(drill.sound.right) }, options);
    questions.push({
      question,
      answer,
      reply: reply.kind === 'tap' ? { ...reply, at: reply.at - from } : reply,
      sound: Buffer.concat(parts).toString('base64'),
    });
  }
  const { instruction, choices, beat, beatsPerBar, sound } = drill;
  const data: DrillData = { title: sound.title, instruction, choices, beat, beatsPerBar, questions };
  return pageFrame({ title: sound.title, body: drillBody(choices.length), data }, pageAssets('drill'));
}
