import type { DrillReply } from '../../practice/index.js';
import type { Seconds } from '../../units/index.js';

/** What the script of a drill's page finds in the page. */
export interface DrillData {
  readonly title: string;
  readonly instruction: string;
  /** Answers to choose from, by the keys 1, 2 and so on; none where the answer is a tap. */
  readonly choices: readonly string[];
  /** Length of a beat, and beats in a bar: a tap is measured by them. */
  readonly beat: Seconds;
  readonly beatsPerBar: number;
  readonly questions: readonly DrillQuestion[];
}

/** A question with its sound. */
export interface DrillQuestion {
  readonly question: string;
  readonly answer: string;
  /** `at` counts from the start of the question's own sound. */
  readonly reply: DrillReply;
  /** The file of its sound in base64: FLAC or MP3. */
  readonly sound: string;
}
