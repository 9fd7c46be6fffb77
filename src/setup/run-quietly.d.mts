interface QuietOptions {
  readonly cwd: string;
  readonly what: string;
  readonly say: (line: string) => void;
  readonly shell?: boolean;
}
export function runQuietly(command: string, args: readonly string[], options: QuietOptions): Promise<void>;
export function runInFront(
  command: string,
  args: readonly string[],
  options: { readonly cwd: string },
): Promise<number>;
