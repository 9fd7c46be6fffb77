const SEPARATOR = ' · ';

/** Joins pieces of text with dots into as few lines as they need. */
export function joinPieces(pieces: readonly string[], fits: (line: string) => boolean): readonly string[] {
  const lines: string[] = [];
  for (const piece of pieces) {
    const last = lines.at(-1);
    const longer = last === undefined ? piece : `${last}${SEPARATOR}${piece}`;
    if (last !== undefined && fits(longer)) lines[lines.length - 1] = longer;
    else lines.push(piece);
  }
  return lines;
}
