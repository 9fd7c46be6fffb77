/** Bytes in one block. */
const BLOCK = 1 << 20;

/**
 * Gathers the operators of a page and hands them over in one piece. pdfkit keeps an array of bytes for each operator
 * until its page ends; thousands of them outlive the young generation, and 500 cards then take half as much memory
 * again. The bytes of the page are the same.
 * @returns hands over what was gathered: to be called before another page begins and before the document ends
 */
export function gatherOperators(doc: PDFKit.PDFDocument): () => void {
  let gathered: string[] = [];
  const page = doc as unknown as {
    addContent: (operators: string) => typeof doc;
    page: { write(chunk: string): void };
  };
  page.addContent = (operators) => {
    gathered.push(operators);
    return doc;
  };
  return () => {
    if (gathered.length > 0) page.page.write(gathered.join('\n'));
    gathered = [];
  };
}

/** Gathers many small chunks in few blocks. */
export interface Gathered {
  readonly add: (chunk: Uint8Array) => void;
  /** Everything that was added, in order. */
  readonly bytes: () => Buffer;
}

export function gatherBytes(): Gathered {
  const full: Buffer[] = [];
  let [block, used] = [Buffer.allocUnsafe(BLOCK), 0];
  const add = (chunk: Uint8Array): void => {
    for (let from = 0; from < chunk.length;) {
      if (used === BLOCK) {
        full.push(block);
        [block, used] = [Buffer.allocUnsafe(BLOCK), 0];
      }
      const part = chunk.subarray(from, from + BLOCK - used);
      block.set(part, used);
      used += part.length;
      from += part.length;
    }
  };
  return { add, bytes: () => Buffer.concat([...full, block.subarray(0, used)]) };
}
