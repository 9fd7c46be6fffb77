/**
 * A text that cannot steer a terminal: control characters, and marks that turn the reading direction, become spaces.
 * @public
 */
export function printable(text: string): string {
  return text.replace(/[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]+/gu, ' ');
}
