/** The protocol counts characters (code points), JavaScript counts UTF-16 units: the unit at which a character starts. */
export function toUnits(text: string, characters: number): number {
  let units = 0;
  for (const character of text) {
    if (characters-- <= 0) break;
    units += character.length;
  }
  return units;
}

/** How many characters stand before a UTF-16 unit. */
export function toCharacters(text: string, units: number): number {
  return [...text.slice(0, units)].length;
}
