import type { Bpm } from '../units/index.js';
import { spokenTempo } from '../wording/index.js';

/** The command that has a file counted at another tempo from then on, to be pasted into a shell. */
export function tempoCommand(file: string, bpm: Bpm): string {
  return `barwise correct ${shellWord(file)} --tempo ${spokenTempo(bpm)}`;
}

/** A word that every usual shell takes as it is; others in quotes. */
function shellWord(word: string): string {
  if (word.startsWith('-')) return shellWord(`./${word}`);
  if (/^[\w./+:@%-]+$/.test(word)) return word;
  if (/^[a-z]:\\|\\/i.test(word)) return `"${word}"`;
  return `'${word.replaceAll("'", `'\\''`)}'`;
}
