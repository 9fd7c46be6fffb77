interface LockFile {
  readonly packages?: Readonly<Record<string, { readonly version?: string; readonly optional?: boolean }>>;
}
export function ensureInstalled(root: string, say: (line: string) => void): Promise<void>;
export function whyInstall(root: string): string | null;
export function sameVersions(lock: LockFile, installed: LockFile): boolean;
