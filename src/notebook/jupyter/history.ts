/** A cell that was run: session, number, code, and its result as text where it has one. */
interface Entry {
  readonly line: number;
  readonly code: string;
  output: string | null;
}

/** The code that was run since the kernel started, for front ends that look back. */
export interface History {
  add(line: number, code: string): void;
  setOutput(line: number, text: string): void;
  /** What a `history_request` asks for: triples of session, number, and code (or code and result). */
  find(request: Readonly<Record<string, unknown>>): unknown[];
}

/** The only session there is: nothing is kept over a restart. */
const SESSION = 1;

export function createHistory(): History {
  const entries: Entry[] = [];
  return {
    add: (line, code) => void entries.push({ line, code, output: null }),
    setOutput: (line, text) => {
      const entry = entries.findLast((e) => e.line === line);
      if (entry) entry.output = text;
    },
    find(request) {
      const found = select(entries, request);
      return found.map((e) => [SESSION, e.line, request['output'] === true ? [e.code, e.output] : e.code]);
    },
  };
}

function select(entries: readonly Entry[], request: Readonly<Record<string, unknown>>): readonly Entry[] {
  const number = (name: string, otherwise: number) => (typeof request[name] === 'number' ? request[name] : otherwise);
  if (request['hist_access_type'] === 'range') {
    const [start, stop] = [number('start', 0), number('stop', Infinity)];
    return entries.filter((e) => e.line >= start && e.line < stop);
  }
  let found = entries;
  if (request['hist_access_type'] === 'search') {
    const pattern = globPattern(typeof request['pattern'] === 'string' ? request['pattern'] : '*');
    found = entries.filter((e) => pattern.test(e.code));
    if (request['unique'] === true)
      found = found.filter((e, i) => found.findIndex((other, j) => j > i && other.code === e.code) < 0);
  }
  const most = number('n', Infinity);
  return most === Infinity ? found : found.slice(Math.max(0, found.length - most));
}

/** `*` is any text, `?` any character, as the protocol has it. */
function globPattern(glob: string): RegExp {
  const escaped = glob.replace(/[.+^${}()|[\]\\]/g, '\\$&');
  return new RegExp(`^${escaped.replaceAll('*', '[^]*').replaceAll('?', '[^]')}$`);
}
