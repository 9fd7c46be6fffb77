import type { DrillReply, DrillRules } from '../../practice/index.js';

/** What the script of a drill's page finds in the page. */
export interface DrillData extends DrillRules {
  readonly title: string;
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
