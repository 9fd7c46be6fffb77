/** The anchor of a heading, as common viewers of Markdown make it: small letters, dashes for blanks, no punctuation. */
export function slug(heading) {
  return heading
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\p{M}\- _]/gu, '')
    .replaceAll(' ', '-');
}
