/** What a person is told while typing; positions are UTF-16 offsets. `null` when there is nothing to tell. */
export interface Answers {
  complete(code: string, position: number): Promise<Completion | null>;
  inspect(code: string, position: number): Promise<{ readonly text: string } | null>;
  isComplete(code: string): Promise<Completeness | null>;
}

/** Names that fit, and the stretch of the code that each would replace. */
export interface Completion {
  readonly start: number;
  readonly end: number;
  readonly matches: readonly string[];
}

/** Whether code can be run as it stands, and how far the next line is to be indented. */
export interface Completeness {
  readonly status: 'complete' | 'incomplete' | 'invalid';
  readonly indent?: string;
}

interface Requests {
  readonly answers: Answers;
  /** The other side listens now. */
  open(): void;
  settle(id: number, content: unknown): void;
  /** The other side is gone: nothing will be answered. */
  close(): void;
}

/** Numbers the questions to the child process and matches its answers to them. */
export function createRequests(send: (message: object) => unknown): Requests {
  const waiting = new Map<number, (content: unknown) => void>();
  let queued: object[] | undefined = [];
  let next = 1;
  let closed = false;
  const ask = <T>(question: object): Promise<T | null> =>
    new Promise((resolve) => {
      if (closed) return resolve(null);
      const id = next++;
      waiting.set(id, (content) => resolve(content as T | null));
      const message = { ...question, id };
      if (queued) queued.push(message);
      else send(message);
    });
  return {
    answers: {
      complete: (code, position) => ask({ kind: 'complete', code, position }),
      inspect: (code, position) => ask({ kind: 'inspect', code, position }),
      isComplete: (code) => ask({ kind: 'is-complete', code }),
    },
    open() {
      queued?.forEach(send);
      queued = undefined;
    },
    settle(id, content) {
      waiting.get(id)?.(content);
      waiting.delete(id);
    },
    close() {
      closed = true;
      for (const resolve of waiting.values()) resolve(null);
      waiting.clear();
    },
  };
}
