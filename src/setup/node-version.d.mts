export const NEEDED: readonly [number, number];
export function nodeComplaint(version: string): string | null;
