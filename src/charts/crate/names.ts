/** Letters of a name that a row has room for. */
const ROOM = 26;

/** A name as a row label; what does not fit ends in an ellipsis. */
export function shortened(name: string): string {
  const letters = [...new Intl.Segmenter().segment(name)].map((s) => s.segment);
  return letters.length <= ROOM
    ? name
    : `${letters
        .slice(0, ROOM - 1)
        .join('')
        .trimEnd()}…`;
}
