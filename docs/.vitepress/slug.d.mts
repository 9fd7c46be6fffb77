/** The anchor of a heading, as common viewers of Markdown make it. */
export function slug(heading: string): string;
