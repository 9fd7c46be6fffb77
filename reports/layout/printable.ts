/** Marks inside a word of Arabic script that part or join its letters: Persian, for one, is misspelled without them. */
const JOINERS = /(?<=[\p{Script=Arabic}\p{M}])[\u200c\u200d](?=\p{Script=Arabic})/gu;
const UNPRINTABLE = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Cn}]/gu;

/** One line of printable text: composed characters, no line breaks, no control or formatting characters. */
export function printable(text: string): string {
  const joiners = new Set([...text.matchAll(JOINERS)].map(({ index }) => index));
  return text
    .replace(UNPRINTABLE, (mark, at: number) => (joiners.has(at) || /\s/.test(mark) ? mark : ''))
    .replace(/[\s\u2028\u2029]+/gu, ' ')
    .normalize('NFC')
    .trim();
}
