export function filesUnder(root: string, folder: string): string[];
export function stateOf(root: string, files: readonly string[]): string;
export function contentOf(root: string, files: readonly string[]): string;
