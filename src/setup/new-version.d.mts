export function newVersion(root: string, cli: string, say: (line: string) => void): Promise<void>;
