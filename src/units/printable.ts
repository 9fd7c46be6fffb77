/**
 * A text that cannot steer a terminal: control characters, and marks that turn the reading direction, become spaces;
 * characters without width that no script needs are left out.
 * @public
 */
export function printable(text: string): string {
  return text
    .replace(/[\u00ad\u200b\u2060-\u2064\ufeff]+/gu, '')
    .replace(/[\p{Cc}\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]+/gu, ' ');
}
